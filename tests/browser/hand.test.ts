import type { Browser, CDPSession, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { castPly } from './castPly.ts';
import { closePages, sharedChromium } from './chromium.ts';
import { serveApp } from './served.ts';
import { idle, still } from './waits.ts';

let browser: Browser;
let page: Page;
let served: Awaited<ReturnType<typeof serveApp>>;

beforeAll(async () => {
  served = await serveApp();
  browser = await sharedChromium();
  const context = await browser.newContext({ viewport: { width: 1024, height: 768 }, hasTouch: true });
  context.setDefaultTimeout(80_000);
  page = await context.newPage();
  await page.goto(`${served.url}#empty`);
}, 180_000);

afterAll(async () => {
  await closePages(browser);
  served?.close();
}, 60_000);

const settled = (): Promise<unknown> => page.waitForFunction(() => !document.querySelector('.working'));
const button = (name: RegExp) => page.getByRole('button', { name }).first();
async function middleOfPlate(): Promise<[number, number]> {
  const box = await page.locator('.plate').boundingBox();
  if (!box) throw new Error('no plate');
  return [box.x + box.width / 2, box.y + box.height / 2];
}
/** Pixels to a millimetre, from the scale bar. */
async function enlarged(): Promise<number> {
  const path = (await page.locator('.scale-bar path').getAttribute('d')) ?? '';
  const mm = Number.parseFloat((await page.locator('.scale-bar text').textContent()) ?? '');
  return Number(/H([\d.]+)/.exec(path)?.[1]) / mm;
}

describe('a scan without a unit', () => {
  it('is asked for, with every size that would make a seal drawn beside a coin, and goes on when one is picked', async () => {
    const file = { name: 'signet.ply', mimeType: 'application/octet-stream', buffer: castPly(150, 14) };
    await page.getByLabel('Scan files').setInputFiles(file);
    await page.waitForSelector('.unit-question');
    const choices = page.locator('.unit-choice');
    expect(await choices.count()).toBeGreaterThan(1);
    expect(await choices.locator('.coin').count()).toBe(await choices.count());
    // The ellipses stand in the ratio of the units: drawn to one scale.
    const [coin, seal] = await Promise.all(
      ['.coin', '.seal'].map((of) =>
        choices
          .first()
          .locator(of)
          .evaluate((shape) => shape.getBoundingClientRect().height),
      ),
    );
    expect(coin / seal).toBeCloseTo(23 / 13.9, 1);
    await choices.filter({ hasText: '(mm)' }).click();
    await settled();
    await page.waitForSelector('.facts-line');
    expect(await page.locator('.unit-question').count()).toBe(0);
    expect(await page.locator('.caption .legends').textContent()).toMatch(/13\.\d\s×\s13\.\d/);
  }, 120_000);
});

describe('the face alone', () => {
  it('is turned upright by the dial: with arrows, with the hand, and back by undo', async () => {
    await button(/face$/i).click();
    const dial = page.getByRole('slider', { name: /top of the design/i });
    const turned = () => dial.getAttribute('aria-valuenow');
    // As it is shown, which may be upright by its motif.
    const shown = await turned();
    await dial.focus();
    await page.keyboard.press('Shift+ArrowRight');
    await settled();
    expect(Math.abs(Number(await turned()) - Number(shown))).toBe(10);
    const box = await dial.boundingBox();
    if (!box) throw new Error('no dial');
    const [x, y] = await middleOfPlate();
    const before = Number(await turned());
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(x + 150, y - 150, { steps: 4 });
    await page.mouse.up();
    await settled();
    const by = Math.abs(Number(await turned()) - before);
    expect(Math.min(by, 360 - by)).toBeGreaterThan(30);
    expect(Math.min(by, 360 - by)).toBeLessThan(60);
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await settled();
    expect(await turned()).toBe(shown);
    await button(/bring in$/i).click();
  }, 120_000);
});

describe('fingers on the plate', () => {
  const touch = (session: CDPSession, type: string, points: readonly (readonly [number, number])[]) =>
    session.send('Input.dispatchTouchEvent', {
      type: type as 'touchStart',
      touchPoints: points.map(([x, y], id) => ({ x, y, id })),
    });

  it('enlarge it when two part, and move it when one goes', async () => {
    const session = await page.context().newCDPSession(page);
    const [x, y] = await middleOfPlate();
    const before = await enlarged();
    await touch(session, 'touchStart', [[x - 40, y]]);
    await touch(session, 'touchStart', [
      [x - 40, y],
      [x + 40, y],
    ]);
    for (const apart of [60, 80, 100, 120])
      await touch(session, 'touchMove', [
        [x - 40, y],
        [x - 40 + 2 * apart, y],
      ]);
    await touch(session, 'touchEnd', []);
    const after = await enlarged();
    expect(after / before).toBeGreaterThan(2);
    expect(after / before).toBeLessThan(4);
    await page.keyboard.press('Home');
    expect(await enlarged()).toBeCloseTo(before, 6);
    const place = () => page.locator('.lamp-ring').first().getAttribute('d');
    const stood = await place();
    await touch(session, 'touchStart', [[x, y]]);
    for (const dx of [20, 40, 60]) await touch(session, 'touchMove', [[x + dx, y]]);
    await touch(session, 'touchEnd', []);
    expect(await place()).not.toBe(stood);
    await page.keyboard.press('Home');
    expect(await place()).toBe(stood);
  }, 120_000);
});

describe('a graphics card that is lost', () => {
  it('is said in a sentence, and the seal comes back with it', async () => {
    const [x, y] = await middleOfPlate();
    const seen = (): Promise<Buffer> => page.screenshot({ clip: { x: x - 60, y: y - 60, width: 40, height: 40 } });
    await page.mouse.move(2, 2);
    // The lamp went home just now: on a busy machine two looks may be alike before it is painted.
    await idle(page);
    const before = await still(seen);
    await page.evaluate(() => {
      const gl = document.querySelector<HTMLCanvasElement>('.scene canvas')?.getContext('webgl2');
      const lose = gl?.getExtension('WEBGL_lose_context');
      (window as unknown as { lose: typeof lose }).lose = lose;
      lose?.loseContext();
    });
    await page.waitForSelector('.notice');
    expect(await page.locator('.notice').textContent()).toMatch(/graphics card was lost.*Nothing is lost/);
    await expect.poll(async () => Buffer.compare(await seen(), before), { timeout: 20_000 }).not.toBe(0);
    await page.evaluate(() => (window as unknown as { lose: { restoreContext(): void } }).lose.restoreContext());
    await page.waitForFunction(() => !document.querySelector('.notice'));
    await expect.poll(async () => Buffer.compare(await seen(), before), { timeout: 20_000 }).toBe(0);
  }, 120_000);
});
