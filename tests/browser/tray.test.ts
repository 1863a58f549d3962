import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { writePly } from '../../src/core/scan/index.ts';
import { violations } from './axe.ts';
import { castPly } from './castPly.ts';
import { closePages, sharedChromium } from './chromium.ts';
import { serveApp } from './served.ts';

const soon = { timeout: 120_000 };
let browser: Browser;
let served: Awaited<ReturnType<typeof serveApp>>;
let page: Page;

beforeAll(async () => {
  served = await serveApp();
  browser = await sharedChromium();
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  page = await context.newPage();
  await page.goto(`${served.url}#empty`);
  const file = (name: string, buffer: Buffer) => ({ name, mimeType: 'application/octet-stream', buffer });
  const casts = Array.from({ length: 8 }, (_, k) => file(`cast-${k + 1}.ply`, castPly(40, 30 + 3 * k)));
  // Small ones: how fine they are is not asked here.
  const { reference, subject } = makePair({
    ...randomRecipe(11, 'same', { vertices: 5000 }),
    whole: false,
    sizeMm: 20,
  });
  const seals = Object.entries({ matrix: reference, impression: subject }).map(([name, { positions, triangles }]) =>
    file(`${name}.ply`, Buffer.from(writePly(positions, triangles))),
  );
  await page.getByLabel('Scan files').setInputFiles([...casts, ...seals, file('broken.ply', Buffer.from('ply\n'))]);
  await page.locator('.scan-row').first().waitFor(soon);
}, 180_000);

afterAll(async () => {
  await closePages(browser);
  served?.close();
}, 60_000);

/** Whoever brings scans in or two together is led to their finding; and back. */
async function backFromFinding(): Promise<void> {
  await page.locator('button[aria-current="step"]', { hasText: /finding$/i }).waitFor(soon);
  await page.getByRole('button', { name: /bring in$/i }).click();
}

const titlesOf = (rows: string) =>
  page.locator(rows).evaluateAll((all) => all.map((one) => one.querySelector('.scan-row-card')?.textContent));
const titles = () => titlesOf('.scan-row');
const row = (title: string) => page.locator('.scan-row', { hasText: title });
const onPlate = async () => (await titlesOf('.scan-row:has([aria-pressed="true"])')).sort();

describe('many scans', () => {
  it('lie in a tray: searched, sorted, one card at a time, the unreadable in one folded line', async () => {
    await backFromFinding();
    await page.getByText('1 scan could not be read').waitFor(soon);
    expect(await page.locator('.card').count()).toBe(0);
    expect((await titles()).slice(0, 3)).toEqual([...(await titles())].sort().slice(0, 3));
    await page.getByLabel('sorted by').selectOption('size');
    await expect
      .poll(async () => (await titles()).filter((title) => title?.startsWith('cast'))[0], soon)
      .toBe('cast-8');
    await page.getByLabel('Find', { exact: true }).fill('cast-3');
    await expect.poll(titles).toEqual(['cast-3']);
    await page.getByRole('button', { name: /^cast-3/ }).click();
    expect(await page.locator('.card').count()).toBe(1);
    await page.getByRole('button', { name: /^cast-3/ }).click();
    await page.getByLabel('Find', { exact: true }).fill('');
    await page.getByText('1 scan could not be read').click();
    await page.locator('.card [role="alert"]').waitFor();
    expect(await page.locator('.card [role="alert"]').textContent()).toContain('broken.ply');
    await page.getByText('1 scan could not be read').click();
    expect(await violations(page)).toEqual([]);
  }, 120_000);

  it('are compared two by two: one drawn onto another, or both laid on the plate by keys', async () => {
    await page.getByLabel('sorted by').selectOption('name');
    await row('cast-1').dragTo(row('cast-2'));
    await backFromFinding();
    await expect.poll(onPlate, soon).toEqual(['cast-1', 'cast-2']);
    for (const name of ['cast-3', 'cast-4'])
      await row(name)
        .getByRole('button', { name: /lay on/ })
        .press('Enter');
    await backFromFinding();
    await expect.poll(onPlate, soon).toEqual(['cast-3', 'cast-4']);
  }, 120_000);
});
