import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { castPly } from '../browser/castPly.ts';
import { openChromium } from '../browser/chromium.ts';
import { serveApp } from '../browser/served.ts';

/** Columns of a simulated cast of about a million vertices. */
const columns = 1130;

interface Act {
  readonly name: string;
  /** Where it is done, found on the page; a key is pressed there, else it is clicked. */
  readonly at: string;
  readonly words?: string;
  readonly key?: string;
}

const step = (name: string): Act => ({ name: `to ${name}`, at: 'nav button', words: name });
const look = (words: string): Act => ({ name: words, at: '.caption button', words });
const acts: readonly Act[] = [
  step('Compare'),
  look('one over the other'),
  look('in turn'),
  look('as differences'),
  look('side by side'),
  { name: 'a mark chosen', at: '.mark-name' },
  { name: 'landmarks shown', at: 'body', key: 'k' },
  { name: 'landmarks put away', at: 'body', key: 'k' },
  { name: 'the lamp to three o’clock', at: 'body', key: '3' },
  { name: 'the plate enlarged', at: 'body', key: '+' },
  { name: 'undo', at: 'header button', words: 'undo' },
  step('Finding'),
  { name: 'the finding unfolded', at: '.margin button', words: 'Unfold the finding' },
  { name: 'first ground', at: '.ground-head' },
  { name: 'second ground', at: '.ground:nth-of-type(2) .ground-head, li:nth-of-type(2) .ground-head' },
  step('Fit'),
  step('Face'),
  step('Bring in'),
  step('Read'),
  step('Show'),
  { name: 'grounds laid out', at: '.margin button', words: 'lay out the grounds' },
  { name: 'the seminar begun', at: '.margin button', words: 'Begin the seminar' },
  { name: 'next view', at: 'body', key: 'PageDown' },
  { name: 'the seminar left', at: '.presenting-keys button', words: 'leave' },
  { name: 'two dates', at: 'nav button', words: 'Two dates' },
];

/**
 * How long the page takes to answer each act while `load` other processes keep the processors busy: from the act to the first picture of
 * the screen after something on the page changed, ms, the median and the worst of `rounds`, and the page's own processor time until all that
 * follows is done (on a busy machine the clock says little); and the longest time that it is silent while a scan of a million vertices is read.
 */
export async function answers(load: number, rounds: number): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'ectype-acts-'));
  const served = await serveApp();
  const browser = await openChromium();
  const others: ChildProcess[] = [];
  try {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await page.goto(served.url);
    await page.waitForFunction(() => document.querySelector('.question-door') && !document.querySelector('.working'));
    await page.waitForTimeout(8000);
    for (let i = 0; i < load; i++) others.push(spawn(process.execPath, ['-e', 'for (;;) Math.sqrt(Math.random())']));
    const processorMs = await clockOf(page);
    const times = new Map<string, number[]>();
    const used = new Map<string, number[]>();
    for (let round = 0; round < rounds; round++)
      for (const act of acts) {
        const before = await processorMs();
        const took = await timeOf(page, act);
        if (took !== null) times.set(act.name, [...(times.get(act.name) ?? []), took]);
        await page.waitForTimeout(600);
        if (took !== null) used.set(act.name, [...(used.get(act.name) ?? []), (await processorMs()) - before]);
      }
    const middle = (all: readonly number[] = []): string => {
      const sorted = [...all].sort((p, q) => p - q);
      return `${sorted[sorted.length >> 1]?.toFixed(0).padStart(6)}`;
    };
    console.log('act, answered after (median, worst), processor time of the page, ms');
    for (const [name, all] of times)
      console.log(`${name.padEnd(28)}${middle(all)}${middle([Math.max(...all)])}${middle(used.get(name))}`);
    const missed = acts.filter(({ name }) => !times.has(name)).map(({ name }) => name);
    if (missed.length > 0) console.log(`not there: ${missed.join(', ')}`);
    await page.close();
    const path = join(folder, 'cast.ply');
    writeFileSync(path, castPly(columns));
    const empty = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await empty.goto(`${served.url}#empty`);
    await empty.waitForSelector('.scene canvas');
    await empty.waitForTimeout(2000);
    console.log(`a million vertices read: silent for ${(await silence(empty, path)).toFixed(0)} ms at most`);
  } finally {
    for (const other of others) other.kill();
    await browser.close();
    served.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Processor time of the page's own thread so far, ms. */
async function clockOf(page: Page): Promise<() => Promise<number>> {
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  return async () => {
    const { metrics } = await session.send('Performance.getMetrics');
    return 1000 * (metrics.find(({ name }) => name === 'TaskDuration')?.value ?? Number.NaN);
  };
}

/** Null where there is nothing to do it with. */
const timeOf = (page: Page, { at, words, key }: Act): Promise<number | null> =>
  page.evaluate(
    async ({ at, words, key }) => {
      const all = [...document.querySelectorAll<HTMLElement>(at)];
      const one = words ? all.find((element) => element.textContent?.endsWith(words)) : all[0];
      if (!one) return null;
      const changed = new Promise<void>((done) => {
        const observer = new MutationObserver(() => {
          observer.disconnect();
          done();
        });
        observer.observe(document.body, { subtree: true, childList: true, attributes: true, characterData: true });
      });
      const begun = performance.now();
      if (key) document.body.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
      else one.click();
      await Promise.race([changed, new Promise((done) => setTimeout(done, 5000))]);
      await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
      return performance.now() - begun;
    },
    { at, ...(words !== undefined && { words }), ...(key !== undefined && { key }) },
  );

async function silence(page: Page, path: string): Promise<number> {
  await page.evaluate(() => {
    const state = window as unknown as { longest: number };
    state.longest = 0;
    let last = performance.now();
    setInterval(() => {
      const now = performance.now();
      state.longest = Math.max(state.longest, now - last);
      last = now;
    }, 4);
  });
  await page.getByLabel('Scan files').setInputFiles(path);
  await page.waitForSelector('.working');
  await page.evaluate(() => {
    (window as unknown as { longest: number }).longest = 0;
  });
  await page.waitForFunction(() => !document.querySelector('.working'), undefined, { timeout: 300_000 });
  return page.evaluate(() => (window as unknown as { longest: number }).longest);
}
