import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { writePly } from '../../src/core/scan/index.ts';
import { openChromium } from '../browser/chromium.ts';
import { serveApp } from '../browser/served.ts';

/**
 * Brings a simulated pair of about twice `vertices` triangles a scan into the built app and prints how long it takes, the
 * greatest memory of the browser's page and graphics processes together (resident, read from /proc every 0.4 s), and what a
 * move of the lamp costs in processor time: on a busy machine the clock says little.
 */
export async function largePair(vertices: number): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'ectype-large-'));
  const paths = written(vertices, folder);
  const served = await serveApp();
  const browser = await openChromium();
  let peakMb = 0;
  const watch = setInterval(() => {
    peakMb = Math.max(peakMb, browserNow().megabytes);
  }, 400);
  try {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await page.goto(`${served.url}#empty`);
    await page.waitForSelector('.scene canvas');
    const start = Date.now();
    const since = (): string => ((Date.now() - start) / 1000).toFixed(0);
    await page.getByLabel('Scan files').setInputFiles(paths);
    // The two are compared as soon as they are read, without another act.
    await until(page, () => document.querySelectorAll('.caption .legends p').length === 2);
    console.log(`read after ${since()} s`);
    await until(
      page,
      () => document.querySelector('.finding-sentence') !== null && !document.querySelector('.working'),
    );
    console.log((await page.locator('.caption .legends p').allTextContents()).join('\n'));
    console.log(`judged after ${since()} s; a lamp move ${await lampMs(page)} ms of processor`);
    console.log(`memory: ${browserNow().megabytes.toFixed(0)} MB now, ${peakMb.toFixed(0)} MB at most`);
  } finally {
    clearInterval(watch);
    await browser.close();
    served.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

function written(vertices: number, folder: string): string[] {
  const pair = makePair({ ...randomRecipe(11, 'same', { vertices }), whole: true, coverage: 1, sizeMm: 60 });
  return (['reference', 'subject'] as const).map((side) => {
    const path = join(folder, `${side}.ply`);
    writeFileSync(path, writePly(pair[side].positions, pair[side].triangles));
    return path;
  });
}

const until = (page: Page, done: () => boolean): Promise<unknown> =>
  page.waitForFunction(done, undefined, { timeout: 600_000 });

/** Processor time of a lamp move, the picture waited for: the mean of twenty. */
async function lampMs(page: Page): Promise<number> {
  await page.waitForTimeout(3000);
  const before = browserNow().processorMs;
  await page.evaluate(async () => {
    const frame = (): Promise<number> => new Promise((resolve) => requestAnimationFrame(resolve));
    const gl = document.querySelector('canvas')?.getContext('webgl2');
    for (let i = 0; i < 20; i++) {
      document.body.dispatchEvent(new KeyboardEvent('keydown', { key: 'd', bubbles: true }));
      await frame();
      await frame();
      gl?.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, new Uint8Array(4));
    }
  });
  return Math.round((browserNow().processorMs - before) / 20);
}

/** Resident memory and processor time of the page and graphics processes that this process has started. */
function browserNow(): { megabytes: number; processorMs: number } {
  let [megabytes, processorMs] = [0, 0];
  for (const id of descendants(process.pid)) {
    try {
      if (!/--type=(renderer|gpu-process)/.test(readFileSync(`/proc/${id}/cmdline`, 'utf8'))) continue;
      megabytes += Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${id}/status`, 'utf8'))?.[1] ?? 0) / 1024;
      const fields = statOf(id);
      // Hundredths of a second in user and system mode.
      processorMs += 10 * (Number(fields[11]) + Number(fields[12]));
    } catch {
      // It ended between being listed and being read.
    }
  }
  return { megabytes, processorMs };
}

/** The fields of /proc/ID/stat after the name, which may hold spaces. */
function statOf(id: number): string[] {
  const stat = readFileSync(`/proc/${id}/stat`, 'utf8');
  return stat.slice(stat.lastIndexOf(')') + 2).split(' ');
}

function descendants(of: number): number[] {
  const children = new Map<number, number[]>();
  for (const name of readdirSync('/proc').filter((one) => /^\d+$/.test(one))) {
    try {
      const parent = Number(statOf(Number(name))[1]);
      children.set(parent, [...(children.get(parent) ?? []), Number(name)]);
    } catch {
      // Ended meanwhile.
    }
  }
  const found: number[] = [];
  for (let at = [of]; at.length > 0; at = at.flatMap((id) => children.get(id) ?? [])) found.push(...at);
  return found;
}
