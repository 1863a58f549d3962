import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { nothingInBoth, violationsInBoth } from './axe.ts';
import { closePages, sharedChromium } from './chromium.ts';
import { serveApp } from './served.ts';
import { walkIn } from './waits.ts';

const steps = ['bring in', 'face', 'fit', 'compare', 'finding', 'read', 'show'];
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

describe('the app is open to everybody', () => {
  it('has nothing for axe to find, at the front door and on every step, in light and dark', async () => {
    const context = await browser.newContext({ viewport: { width: 1024, height: 768 } });
    const page = await context.newPage();
    await page.goto(served.url);
    await page.waitForSelector('.at-door .caption p');
    /** The page as it stands, in both grounds. */
    const clean = async (where: string): Promise<void> =>
      expect(await violationsInBoth(page), where).toEqual(nothingInBoth);
    await clean('the front door');
    await walkIn(page);
    await page.waitForFunction(
      () => /Depth differences/i.test(document.querySelector('.margin')?.textContent ?? ''),
      undefined,
      { timeout: 90_000 },
    );
    for (const step of steps) {
      await page
        .getByRole('button', { name: new RegExp(`${step}$`, 'i') })
        .first()
        .click();
      if (step === 'finding') await page.getByRole('button', { name: /unfold the finding/i }).click();
      await clean(step);
    }
    await page.keyboard.press('k');
    await page.locator('.landmark').first().focus();
    await clean('landmarks');
    await page.keyboard.press('k');
    await page.getByRole('button', { name: /draw the states/i }).click();
    expect(await page.locator('.worn').count()).toBeGreaterThan(0);
    await clean('wear');
    await context.close();
  }, 150_000);

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
