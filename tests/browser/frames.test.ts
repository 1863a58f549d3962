import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { castPly } from './castPly.ts';
import { openChromium } from './chromium.ts';
import { serveApp } from './served.ts';
import { idle } from './waits.ts';

let browser: Browser;
let served: Awaited<ReturnType<typeof serveApp>>;

beforeAll(async () => {
  served = await serveApp();
  browser = await openChromium();
}, 180_000);

afterAll(async () => {
  await browser?.close();
  served?.close();
}, 60_000);

interface Times {
  readonly triangles: string;
  /** Median of a lamp move's frame, ms. */
  readonly frameMs: number;
  /** Longest time the page did not answer while the worker read the scan, ms. */
  readonly longestMs: number;
}

async function times(side: number): Promise<Times> {
  const page = await (await browser.newContext({ viewport: { width: 1024, height: 768 } })).newPage();
  await page.goto(`${served.url}#empty`);
  await page.waitForSelector('.scene canvas');
  await idle(page);
  await page.evaluate(watchAnswers);
  const path = join(mkdtempSync(join(tmpdir(), 'ectype-frames-')), 'cast.ply');
  writeFileSync(path, castPly(side));
  await page.getByLabel('Scan files').setInputFiles(path);
  await page.waitForSelector('.working');
  await page.evaluate(() => {
    (window as unknown as { longest: number }).longest = 0;
  });
  await page.waitForFunction(() => !document.querySelector('.working'), undefined, { timeout: 120_000 });
  const longestMs = await page.evaluate(() => (window as unknown as { beforeEnd: number }).beforeEnd);
  await page.waitForSelector('.facts-line');
  await idle(page);
  const frameMs = await page.evaluate(lampFrames);
  const triangles = /([\d\s]+) triangles/.exec((await page.locator('.facts-line').textContent()) ?? '')?.[1] ?? '';
  await page.close();
  return { triangles: triangles.trim(), frameMs, longestMs };
}

/** Notes the longest gap between two ticks for as long as something is being worked on. */
function watchAnswers(): void {
  const state = window as unknown as { longest: number; beforeEnd: number };
  let last = performance.now();
  setInterval(() => {
    const now = performance.now();
    if (document.querySelector('.working')) {
      state.beforeEnd = state.longest;
      state.longest = Math.max(state.longest, now - last);
    }
    last = now;
  }, 5);
}

/** Moves the lamp twenty times and waits for each picture. */
async function lampFrames(): Promise<number> {
  const frame = (): Promise<number> => new Promise((resolve) => requestAnimationFrame(resolve));
  const canvas = document.querySelector('canvas');
  const gl = canvas?.getContext('webgl2');
  const caption = () => document.querySelector('.choices-line i')?.textContent;
  const before = caption();
  const took: number[] = [];
  for (let i = 0; i < 21; i++) {
    const begin = performance.now();
    // The lamp's keys are the hours.
    dispatchEvent(new KeyboardEvent('keydown', { key: String(1 + (i % 9)) }));
    await frame();
    await frame();
    gl?.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, new Uint8Array(4));
    took.push(performance.now() - begin);
  }
  if (caption() === before) throw new Error('the lamp did not move');
  return took.sort((a, b) => a - b)[10];
}

it('lights a scan of two million triangles as fast as one of a hundred thousand', async () => {
  const small = await times(255);
  const large: Times = await times(1130);
  console.log('triangles, ms a lamp move, longest silence of the page while working:', small, large);
  expect(large.frameMs).toBeLessThan(2 * small.frameMs + 40);
  // 85 ms was measured; the rest is room for a machine that does other things.
  expect(large.longestMs).toBeLessThan(250);
}, 240_000);
