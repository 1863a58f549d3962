import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { closePages, sharedChromium } from './chromium.ts';
import { serveApp } from './served.ts';

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

async function saved(page: Page, words: string): Promise<string> {
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByText(words).click()]);
  return readFileSync(await download.path(), 'utf8');
}

describe('one object on two dates', () => {
  it('is told, turned, pointed at and saved, and no question of matrices is asked', async () => {
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
    context.setDefaultTimeout(60_000);
    const page = await context.newPage();
    await page.goto(`${served.url}#empty`);
    await page.getByRole('button', { name: 'Two dates', exact: true }).click();
    expect(await violations(page)).toEqual([]);
    await page.getByText('Odric’s impression on two dates').click();
    const sentence = await page.locator('.change-sentence').innerText();
    // What the sample's maker did: a crack, a flake gone, a film.
    expect(sentence).toMatch(/^Three places changed .* are gone and .* were added.* one is a sunk line/);

    const onTop = (date: string) => page.waitForSelector(`.date-turn[aria-label*="the ${date} date lies on top"]`);
    await onTop('earlier');
    await page.waitForSelector('button:enabled:has-text("turn by itself")');
    await page.emulateMedia({ reducedMotion: 'reduce' });
    await page.waitForSelector('button:disabled:has-text("turn by itself")');
    await page.keyboard.press('t');
    await (await onTop('later')).click();
    await onTop('earlier');

    await page.locator('.change .mark-name').first().click();
    await page.waitForSelector('.change-room .veil', { state: 'attached' });
    await page.getByText('12° above the face').waitFor();
    expect(await page.locator('.outline.leader').count()).toBe(3);
    await page.keyboard.press('Escape');
    await page.getByText('25° above the face').waitFor();

    await page.getByRole('button', { name: 'what changed' }).click();
    const legend = page.locator('.difference-legend');
    await legend.getByText('later stands lower').waitFor();
    expect(await legend.innerText()).toMatch(/later stands higher[\s\S]*not compared/);
    expect(await violations(page)).toEqual([]);

    const record = JSON.parse(await saved(page, 'save the record'));
    expect(record).toMatchObject({ schema: 'ectype/change/1', simulated: true, sentence });
    const words = await page.locator('.margin').innerText();
    for (const { words: limit } of record.limits) expect(words).toContain(limit.slice(0, 40));
    const report = await saved(page, 'save the report');
    expect(report.match(/<section class="sheet/g)).toHaveLength(2);
    expect(words.match(/matri/g)).toHaveLength(1);
    await context.close();
  }, 120_000);
});
