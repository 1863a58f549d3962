import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { beyondRim } from '../../src/app/plate/ring.ts';
import { closePages, sharedChromium } from './chromium.ts';
import { serveApp } from './served.ts';
import { idle, settled } from './waits.ts';

let browser: Browser;
let served: Awaited<ReturnType<typeof serveApp>>;

beforeAll(async () => {
  served = await serveApp();
  browser = await sharedChromium();
}, 180_000);

afterAll(async () => {
  await closePages(browser);
  served?.close();
}, 60_000);

/** Files by their names. */
type Files = Readonly<Record<string, Uint8Array>>;

async function drop(page: Page, brought: Files): Promise<void> {
  const files = Object.entries(brought).map(([name, bytes]) => ({
    name,
    bytes: Buffer.from(bytes).toString('base64'),
  }));
  const carried = await page.evaluateHandle((all) => {
    const data = new DataTransfer();
    for (const { name, bytes } of all)
      data.items.add(new File([Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0))], name));
    return data;
  }, files);
  await page.dispatchEvent('.plate', 'drop', { dataTransfer: carried });
}

/** An empty page with the files let go over it, when their finding is told. */
async function told(files: Files): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  context.setDefaultTimeout(60_000);
  const page = await context.newPage();
  await page.goto(`${served.url}#empty`);
  await page.waitForSelector('.plate');
  await idle(page);
  await drop(page, files);
  await page.waitForSelector('.finding-sentence', { timeout: 240_000 });
  // The finding is told before all is measured: sizes and further grounds follow it.
  await settled(page, () => !document.querySelector('.working'), 240_000);
  return page;
}

const history = async (page: Page): Promise<string> =>
  [
    await page.locator('.caption .legends').innerText(),
    await page.locator('.finding-sentence').innerText(),
    ...(await page.locator('.ground-head').allInnerTexts()),
  ].join('\n');

/** Files of the sample story. */
const sample = (...names: string[]): Files =>
  Object.fromEntries(names.map((name) => [name, readFileSync(resolve('sample-scans', name))]));

describe('why', () => {
  const pair = ['odric-impression.ply', 'odric-matrix.glb'];
  let page: Page;

  it('is one and the same history in whatever order the files come', async () => {
    // Seats do not depend on it, by a law over every order (tests/app/seats.test.ts); here what is told does not.
    const other = await told(sample(...[...pair].reverse()));
    const before = await history(other);
    await other.context().close();
    page = await told(sample(...pair));
    expect(await history(page)).toBe(before);
    expect(before).toMatch(/odric-matrix[\s\S]*odric-impression/);
  }, 600_000);

  it('gives the plate to every ground in one act, by hand or by key, with what speaks against it and what would overturn it', async () => {
    const plate = await page.locator('.plate').boundingBox();
    const ring = await page.locator('.lamp-ring').first().boundingBox();
    if (!plate || !ring) throw new Error('no plate');
    // A round seal is held by the width of its half of the plate.
    expect((ring.height - 2 * beyondRim(25)) / plate.height).toBeGreaterThanOrEqual(0.6);
    const heads = page.locator('.ground-head');
    const count = await heads.count();
    expect(count).toBeGreaterThanOrEqual(3);
    expect(count).toBeLessThanOrEqual(6);
    const seen = new Set<string>();
    for (let i = 0; i < count; i++) {
      await heads.nth(i).click();
      expect(await heads.nth(i).getAttribute('aria-expanded')).toBe('true');
      expect(await page.locator('.ground-told').count()).toBe(1);
      const words = await page.locator('.ground-told').innerText();
      expect(words).toContain('Against it.');
      expect(words).toContain('It would be overturned by');
      expect(words).not.toMatch(/reference|subject|NaN/);
      seen.add(await page.locator('.overlay').innerHTML());
    }
    expect(seen.size).toBe(count);
    await heads.first().focus();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    expect(await heads.nth(1).getAttribute('aria-expanded')).toBe('true');
    // The first ground is the one that decided.
    expect(await heads.first().innerText()).toContain('decided');
    await page.context().close();
  }, 400_000);
});
