import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { openChromium } from '../browser/chromium.ts';
import { serveApp } from '../browser/served.ts';

/**
 * Brings every pair of a folder (`NAME/reference.ply` and `subject.ply`) into the built app in both orders and prints for each whether
 * one and the same history is told: seats, sentence, and the grounds in their order. `named`: only pairs whose name
 * holds this.
 */
export async function appOrders(folder: string, named = ''): Promise<void> {
  const pairs = readdirSync(folder)
    .filter((name) => existsSync(join(folder, name, 'reference.ply')))
    .sort()
    .filter((name) => name.includes(named));
  const served = await serveApp();
  const browser = await openChromium();
  let same = 0;
  try {
    for (const name of pairs) {
      const files = ['reference.ply', 'subject.ply'].map((file) => join(folder, name, file));
      const one = await told(browser, served.url, files);
      const other = await told(browser, served.url, [...files].reverse());
      if (one === other) same++;
      console.log(`${one === other ? 'one history ' : 'TWO HISTORIES'} ${name}: ${one.split('\n').slice(-1)}`);
      if (one !== other) console.log(`${one}\n---\n${other}`);
    }
  } finally {
    await browser.close();
    served.close();
  }
  console.log(`${same} of ${pairs.length} pairs tell one history in both orders`);
}

async function told(browser: Browser, url: string, files: readonly string[]): Promise<string> {
  const page = await (await browser.newContext({ viewport: { width: 1024, height: 768 } })).newPage();
  await page.goto(`${url}#empty`);
  await page.waitForSelector('.plate');
  await page.getByLabel('Scan files').setInputFiles([...files]);
  // The first answer has no grounds yet.
  await page.waitForSelector('.ground-head', { timeout: 240_000 });
  const words = await history(page);
  await page.context().close();
  return words;
}

const history = async (page: Page) =>
  [
    await page.locator('.caption .legends').textContent(),
    ...(await page.locator('.ground-head').allTextContents()),
    await page.locator('.finding-sentence').textContent(),
  ].join('\n');
