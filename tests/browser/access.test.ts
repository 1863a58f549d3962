import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
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

/** What axe finds on every step is asked on the page of the demonstration (`demonstration/access.ts`). */
describe('the app is open to everybody', () => {
  it('names the plate and everything that can be moved, and shows where the keyboard is', async () => {
    const page = await (await browser.newContext()).newPage();
    await page.goto(`${served.url}#empty`);
    const plate = page.locator('.plate');
    expect(await plate.getAttribute('role')).toBe('application');
    expect(await plate.getAttribute('aria-label')).not.toBe('');
    await page.keyboard.press('Tab');
    const outline = await page.evaluate(() => getComputedStyle(document.activeElement as Element).outlineStyle);
    expect(outline).toBe('solid');
    await page.keyboard.press('?');
    expect(await page.getByRole('dialog').isVisible()).toBe(true);
    await page.close();
  }, 60_000);

  it('says so where the browser has no WebGL, and shows still pictures', async () => {
    const page = await (await browser.newContext({ viewport: { width: 1024, height: 768 } })).newPage();
    await page.addInitScript(() => {
      const get = HTMLCanvasElement.prototype.getContext;
      HTMLCanvasElement.prototype.getContext = function (this: HTMLCanvasElement, kind: string, ...more: unknown[]) {
        return kind === 'webgl2' ? null : get.call(this, kind as '2d', ...(more as []));
      } as typeof get;
    });
    await page.goto(served.url);
    await page.waitForSelector('.no-graphics .still', { timeout: 90_000 });
    expect(await page.locator('.no-graphics p').textContent()).toContain('no WebGL');
    await page.close();
  }, 120_000);
});
