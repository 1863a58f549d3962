import { type ChildProcess, spawn } from 'node:child_process';
import { loadavg } from 'node:os';
import { resolve } from 'node:path';
import type { Page } from 'playwright-core';
import { openChromium } from '../browser/chromium.ts';
import { serveApp } from '../browser/served.ts';

/** An act is answered when the next picture after it stands on the screen, ms. */
const mostMs = 250;
const times = 3;

/**
 * Does every act of the built app by hand or key while `load` other processes keep the machine busy, and prints for each the median and the most of three
 * times from the input to the next picture, as the browser tells it (Event Timing, in steps of 8 ms).
 */
export async function appActs(load: number): Promise<void> {
  const busy = Array.from({ length: load }, () => spawn(process.execPath, ['-e', 'for(;;);'], { stdio: 'ignore' }));
  try {
    const rows = await measured();
    for (const { act, took } of rows) {
      const sorted = [...took].sort((a, b) => a - b);
      const most = sorted.at(-1) ?? Number.NaN;
      console.log(
        `${most > mostMs ? 'LATE ' : '     '}${act}: ${sorted[sorted.length >> 1] ?? '?'} ms, at most ${most} ms`,
      );
    }
    const all = rows.flatMap(({ took }) => took).sort((a, b) => a - b);
    const within = all.filter((ms) => ms <= mostMs).length;
    console.log(
      `${within} of ${all.length} acts within ${mostMs} ms, median ${all[all.length >> 1]} ms, at most ${all.at(-1)} ms; ` +
        `load average ${loadavg()[0].toFixed(1)}, ${load} busy processes of the bench's own`,
    );
  } finally {
    for (const one of busy) stop(one);
  }
}

const stop = (one: ChildProcess): void => void one.kill('SIGKILL');

interface Row {
  readonly act: string;
  readonly took: number[];
}

async function measured(): Promise<Row[]> {
  const served = await serveApp();
  const browser = await openChromium();
  try {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    page.setDefaultTimeout(60_000);
    await page.addInitScript(watchInputs);
    await page.goto(served.url);
    await page.waitForSelector('.question-door');
    await quiet(page);
    const rows: Row[] = [];
    const one = async (act: string, run: () => Promise<void>): Promise<void> => {
      let row = rows.find((known) => known.act === act);
      if (!row) {
        row = { act, took: [] };
        rows.push(row);
      }
      await page.evaluate(() => {
        (window as unknown as Watched).longest = 0;
      });
      await run();
      // The browser tells a time when the picture stands; an act within one step of the clock is not told.
      await page.waitForTimeout(700);
      row.took.push(await page.evaluate(() => (window as unknown as Watched).longest));
    };
    for (let i = 0; i < times; i++) await everyAct(page, one);
    const drop = await page.getByLabel('Scan files');
    await one('two scans brought in: the first sign of it', async () => {
      const sign = page.waitForSelector('.working');
      const start = Date.now();
      await drop.setInputFiles(['odric-matrix.glb', 'odric-impression.ply'].map((n) => resolve('sample-scans', n)));
      await sign;
      const ms = Date.now() - start;
      await page.evaluate((took) => {
        (window as unknown as Watched).longest = took;
      }, ms);
    });
    return rows;
  } finally {
    await browser.close();
    served.close();
  }
}

type One = (act: string, run: () => Promise<void>) => Promise<void>;

async function everyAct(page: Page, one: One): Promise<void> {
  const button = (name: RegExp) => page.getByRole('button', { name }).first();
  const click = (name: RegExp) => async (): Promise<void> => button(name).click();
  const key = (name: string) => (): Promise<void> => page.keyboard.press(name);
  for (const step of ['bring in', 'face', 'fit', 'compare']) {
    await one(`step ${step}`, click(new RegExp(`${step}$`, 'i')));
    await quiet(page);
  }
  for (const look of ['one over the other', 'in turn', 'as differences', 'side by side'])
    await one(`look ${look}`, click(new RegExp(`^${look}$`, 'i')));
  for (const hour of ['3', '9']) await one('lamp by key', key(hour));
  await one('keys shown', key('?'));
  await one('keys put away', key('Escape'));
  await one('margin put away and back', key('m'));
  await one('margin put away and back', key('m'));
  await one('undo', key('Control+z'));
  await one('redo', key('Control+Shift+z'));
  await quiet(page);
  await one('step finding', click(/finding$/i));
  await quiet(page);
  const unfold = button(/unfold/i);
  if (await unfold.isVisible()) await one('finding unfolded', () => unfold.click());
  const heads = page.locator('.ground-head');
  for (let i = 0; i < (await heads.count()); i++) await one('a ground takes the plate', () => heads.nth(i).click());
  await one('step read', click(/read$/i));
  await page.waitForSelector('.strip-pane canvas');
  await quiet(page);
  await one('step show', click(/show$/i));
  await quiet(page);
  await one('two dates', () => page.getByRole('button', { name: 'Two dates', exact: true }).click());
  await quiet(page);
  await one('back to compare', click(/compare$/i));
  await quiet(page);
}

interface Watched {
  longest: number;
}

/** Keeps the longest time from an input to the next picture. */
function watchInputs(): void {
  const state = window as unknown as Watched;
  state.longest = 0;
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) state.longest = Math.max(state.longest, duration);
  }).observe({ type: 'event', durationThreshold: 16, buffered: false } as PerformanceObserverInit);
}

/** Until nothing is worked on. */
async function quiet(page: Page): Promise<void> {
  await page.waitForFunction(() => !document.querySelector('.working'), undefined, { timeout: 120_000 });
  await page.waitForTimeout(500);
}
