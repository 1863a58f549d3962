import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Browser, Download, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openChromium } from './chromium.ts';
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
  browser = await openChromium();
}, 120_000);

afterAll(async () => {
  await browser?.close();
  served?.close();
}, 60_000);

/** The start page as anybody finds it, with its demonstration pair measured. */
async function startPage(): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1024, height: 768 }, acceptDownloads: true });
  context.setDefaultTimeout(60_000);
  const page = await context.newPage();
  await page.goto(served.url);
  await judged(page);
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

describe('a newcomer with two files', () => {
  let page: Page;

  it('gets from the start page to a finding by dropping them, and nothing more', async () => {
    page = await startPage();
    let acts = 0;
    await drop(page, own);
    acts++;
    acts += await toTheFinding(page);
    console.log(`from the start page to a finding of one's own: ${acts} acts`);
    expect(acts).toBe(1);
    expect(await page.locator('.caption .legends').textContent()).toMatch(/odric-matrix.*odric-impression/);
    expect(await page.locator('.finding-sentence').textContent()).toMatch(/matrix/);
  }, 300_000);

  it('or by choosing them in the system’s dialogue, which counts as an act', async () => {
    const second = await startPage();
    let acts = 0;
    const [chooser] = await Promise.all([
      second.waitForEvent('filechooser'),
      button(second, /^choose files$/i).click(),
    ]);
    acts++;
    await chooser.setFiles(own);
    acts++;
    acts += await toTheFinding(second);
    console.log(`the same with the dialogue: ${acts} acts`);
    expect(acts).toBeLessThanOrEqual(mostActs);
    await second.context().close();
  }, 300_000);

  it('finds the demonstration again by undo, as it lay', async () => {
    await page.keyboard.press('Control+z');
    await judged(page);
    expect(await page.locator('.caption .legends').textContent()).toMatch(/Averholt/);
    await page.keyboard.press('Control+Shift+z');
    await judged(page);
    expect(await page.locator('.caption .legends').textContent()).toMatch(/odric/);
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
