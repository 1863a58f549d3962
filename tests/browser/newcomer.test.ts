import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Browser, Download, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { closePages, sharedChromium } from './chromium.ts';
import { serveApp } from './served.ts';
import { settled } from './waits.ts';

let browser: Browser;
let served: Awaited<ReturnType<typeof serveApp>>;
const folder = mkdtempSync(join(tmpdir(), 'ectype-newcomer-'));
/** Two scans as somebody else would bring them: one says its unit, the other does not, and neither what it is. */
const own = ['odric-matrix.glb', 'odric-impression.ply'].map((name) => resolve('sample-scans', name));
/** Dropping them, or opening the dialogue and choosing them. */
const mostActs = 2;

beforeAll(async () => {
  served = await serveApp();
  browser = await sharedChromium();
}, 120_000);

afterAll(async () => {
  await closePages(browser);
  served?.close();
}, 60_000);

/** The front door as anybody finds it, with its seal in the dark. */
async function startPage(): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1024, height: 768 }, acceptDownloads: true });
  context.setDefaultTimeout(60_000);
  const page = await context.newPage();
  await page.goto(served.url);
  await page.waitForSelector('.at-door .caption p');
  return page;
}

/** Until nothing is worked on and the evidence is weighed. */
async function judged(page: Page): Promise<void> {
  const done = (): boolean =>
    !document.querySelector('.working') &&
    document.querySelectorAll('.caption .legends p').length === 2 &&
    !document.querySelector('.margin')?.textContent?.includes('measured again');
  await settled(page, done);
}

const button = (page: Page, name: RegExp) => page.getByRole('button', { name }).first();

/** Two files let go over the page. */
async function drop(page: Page, paths: readonly string[]): Promise<void> {
  const files = paths.map((path) => ({ name: path.split('/').at(-1), bytes: readFileSync(path).toString('base64') }));
  const carried = await page.evaluateHandle((all) => {
    const data = new DataTransfer();
    for (const { name, bytes } of all)
      data.items.add(new File([Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0))], name ?? 'scan'));
    return data;
  }, files);
  await page.dispatchEvent('.plate', 'drop', { dataTransfer: carried });
}

/** From files that were let go to the finding nothing more is to be done. */
async function toTheFinding(page: Page): Promise<number> {
  await page.waitForSelector('.finding-sentence', { timeout: 180_000 });
  return 0;
}

/** One page for all: a fresh one measures the demonstration anew. */
let page: Page;

describe('the front door', () => {
  it('puts the lamp in the visitor’s hand, still until it is moved, and answers its three questions', async () => {
    page = await startPage();
    const sun = page.locator('.lamp.in-hand .lamp-sun');
    const still = await sun.getAttribute('aria-valuetext');
    const box = await page.locator('.plate').boundingBox();
    if (!box) throw new Error('no plate');
    await page.mouse.move(box.x + 0.5 * box.width, box.y + 0.8 * box.height);
    expect(await sun.getAttribute('aria-valuetext')).not.toBe(still);
    // The same by key, and nothing of it is an act to be undone but that.
    await page.keyboard.press('3');
    expect(await sun.getAttribute('aria-valuetext')).toContain('from 90 degrees');
    await button(page, /was this pressed from this matrix/i).click();
    // The finding stands first; what the surfaces show is joined to it.
    await page.locator('.finding-sentence', { hasText: 'state before the cut' }).waitFor();
    expect(await page.locator('.ground-head').count()).toBeGreaterThanOrEqual(3);
    await backToTheQuestions(page);
    await button(page, /what does it say/i).click();
    await page.waitForSelector('.strip-pane canvas');
    await page.keyboard.press('Control+z');
    await backToTheQuestions(page);
    await button(page, /what has happened to it/i).click();
    await page.waitForSelector('.wear-table');
    expect(await page.locator('.wear-table').textContent()).toMatch(/lower than a|lost/);
    await page.keyboard.press('Control+z');
    await backToTheQuestions(page);
  }, 170_000);
});

/** As long as only the demonstration lies there. */
async function backToTheQuestions(page: Page): Promise<void> {
  await button(page, /compare$/i).click();
  await button(page, /back to the three questions/i).click();
}

describe('a newcomer with two files', () => {
  it('gets from the start page to a finding by dropping them, and nothing more', async () => {
    let acts = 0;
    await drop(page, own);
    acts++;
    acts += await toTheFinding(page);
    console.log(`from the start page to a finding of one's own: ${acts} acts`);
    expect(acts).toBe(1);
    expect(await page.locator('.caption .legends').textContent()).toMatch(/odric-matrix.*odric-impression/);
    expect(await page.locator('.finding-sentence').textContent()).toMatch(/matrix/);
  }, 300_000);

  it('finds the demonstration again by undo, as it lay', async () => {
    await page.keyboard.press('Control+z');
    await judged(page);
    expect(await page.locator('.caption .legends').textContent()).toMatch(/Averholt/);
    await page.keyboard.press('Control+Shift+z');
    await judged(page);
    expect(await page.locator('.caption .legends').textContent()).toMatch(/odric/);
  }, 300_000);

  it('or by choosing them in the system’s dialogue, which counts as an act', async () => {
    await page.keyboard.press('Control+z');
    await judged(page);
    await backToTheQuestions(page);
    let acts = 0;
    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), button(page, /^choose files$/i).click()]);
    acts++;
    await chooser.setFiles(own);
    acts++;
    // Both have the plate and are measured, and nothing is asked: from here on it is as with files that are dropped.
    await page.waitForFunction(() =>
      /odric[\s\S]*odric/.test(document.querySelector('.caption .legends')?.textContent ?? ''),
    );
    expect(await page.locator('.unit-choices').count()).toBe(0);
    console.log(`the same with the dialogue: ${acts} acts`);
    expect(acts).toBeLessThanOrEqual(mostActs);
    await judged(page);
  }, 300_000);

  describe('who doubts the turn', () => {
    async function record(): Promise<{
      fit: { subjectToReference: number[]; start?: { from: string; turnDeg: number } };
      judge: unknown;
    }> {
      await button(page, /show$/i).click();
      const [download] = await Promise.all([
        page.waitForEvent('download') as Promise<Download>,
        button(page, /save the record/i).click(),
      ]);
      const path = join(folder, 'record.json');
      await download.saveAs(path);
      const { fit, judge } = JSON.parse(readFileSync(path, 'utf8'));
      return { fit, judge };
    }

    it('fits from a rival, sees the record change, and has the first back by undo', async () => {
      const before = await record();
      await button(page, /fit$/i).click();
      const rivals = page.locator('.rival');
      expect(await rivals.count()).toBeGreaterThan(1);
      const turn = Number.parseFloat(((await rivals.nth(1).textContent()) ?? '').replace('−', '-'));
      await rivals.nth(1).click();
      // Looking changes nothing yet.
      expect(await page.locator('.margin').textContent()).toContain(
        'Everything measured still rests on the chosen one',
      );
      await button(page, /fit from this turn/i).click();
      await judged(page);
      expect(await page.locator('.margin').textContent()).toMatch(/began at a turn chosen by hand/);
      const after = await record();
      expect(after.fit.start?.from).toBe('turn');
      expect(Math.abs((after.fit.start?.turnDeg ?? Number.NaN) - turn)).toBeLessThan(0.51);
      expect(after.fit.subjectToReference).not.toEqual(before.fit.subjectToReference);
      expect(after.judge).not.toEqual(before.judge);
      await page.keyboard.press('Control+z');
      await judged(page);
      expect(await record()).toEqual(before);
    }, 300_000);
  });
});
