import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { openChromium } from '../browser/chromium.ts';
import { serveApp } from '../browser/served.ts';
import { idle, settled } from '../browser/waits.ts';

type Shoot = (name: string) => Promise<unknown>;

/** Draws the pictures of README and docs/app.md anew from the built app and its sample scans: JPEG, 1440 × 900, light. */
export async function appPictures(folder: string): Promise<void> {
  mkdirSync(folder, { recursive: true });
  const served = await serveApp();
  const browser = await openChromium();
  try {
    for (const draw of [pair, states, legend, dates]) {
      const page = await opened(browser, served.url);
      await draw(page, async (name) => {
        await idle(page);
        await page.screenshot({ path: join(folder, `app-${name}.jpg`), type: 'jpeg', quality: 82 });
      });
      await page.context().close();
    }
  } finally {
    await browser.close();
    served.close();
  }
}

async function opened(browser: Browser, url: string): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, colorScheme: 'light' });
  context.setDefaultTimeout(120_000);
  const page = await context.newPage();
  await page.goto(`${url}#empty`);
  await page.waitForSelector('.plate');
  return page;
}

const press = (page: Page, name: RegExp) => page.getByRole('button', { name }).first().click();
const room = (page: Page, name: string) =>
  page.locator('nav[aria-label="Steps"] button').filter({ hasText: name }).click();

/** Brings in these samples and waits until all of a pair is measured. */
async function bring(page: Page, ...files: string[]): Promise<void> {
  await page.getByLabel('Scan files').setInputFiles(files.map((file) => resolve('sample-scans', file)));
  await page.waitForSelector(files.length > 1 ? '.finding-sentence' : '.card .facts-line');
  await settled(page, () => !document.querySelector('.working'));
}

/** The cancelled matrix and its good impression: side by side, with a section, as differences, with their finding. */
async function pair(page: Page, shoot: Shoot): Promise<void> {
  await bring(page, 'averholt-matrix.glb', 'averholt-impression-good.glb');
  await room(page, 'Compare');
  await shoot('compare');
  await press(page, /lay a section across the middle/);
  await shoot('section');
  await press(page, /put it away/);
  await press(page, /^as differences/);
  await page.waitForSelector('.difference-legend');
  await shoot('differences');
  await press(page, /^side by side/);
  await room(page, 'Finding');
  const unfold = page.getByRole('button', { name: /Unfold the finding/ });
  if (await unfold.count()) await unfold.click();
  await page.locator('.ground-head').filter({ hasText: 'the state before the cut' }).click();
  await shoot('finding');
}

/** What of the motif stands lower on a worn impression. */
async function states(page: Page, shoot: Shoot): Promise<void> {
  await bring(page, 'averholt-matrix.glb', 'averholt-impression-worn.glb');
  await room(page, 'Compare');
  await page.locator('.wear-table').getByRole('button', { name: 'motif' }).click();
  await page.mouse.move(5, 5);
  await page.locator('.margin').evaluate((margin) => margin.scrollTo(0, 0));
  await shoot('wear');
}

/** The first words of a broken legend, typed along its strip. */
async function legend(page: Page, shoot: Shoot): Promise<void> {
  await bring(page, 'averholt-impression-worn.glb');
  await room(page, 'Read');
  await page.waitForSelector('.strip-picture');
  await page.locator('.strip-desk').click({ position: { x: 200, y: 45 } });
  for (const key of '+SIGILLVM,P') await page.locator('.strip-desk').press(key);
  await shoot('read');
}

/** What changed on one impression between two dates, over the earlier. */
async function dates(page: Page, shoot: Shoot): Promise<void> {
  await press(page, /^Two dates$/);
  await page.getByText('Odric’s impression on two dates').click();
  await page.waitForSelector('.change-sentence');
  await press(page, /^what changed$/);
  await page.waitForSelector('.difference-legend');
  await shoot('dates');
}
