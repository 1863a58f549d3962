import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Download, Locator, Page } from 'playwright-core';
import { closePages, sharedChromium } from '../chromium.ts';
import { serveApp } from '../served.ts';
import { settled } from '../waits.ts';

/** A small computer's screen. */
export const small = { width: 1024, height: 768 } as const;

export let browser: Browser;
export let served: Awaited<ReturnType<typeof serveApp>>;
/** The one page on which all stories of the demonstration go on, one after another. */
export let page: Page;
/** What any of the stories' pages found wrong, by itself or in the console. */
export const troubles: string[] = [];

/** Another page, whose troubles count too. */
export async function newPage(of: BrowserContext): Promise<Page> {
  const fresh = await of.newPage();
  fresh.on('pageerror', (error) => troubles.push(error.message));
  fresh.on('console', (message) => message.type() === 'error' && troubles.push(message.text()));
  return fresh;
}

/** An empty page in a browser of its own; the first story goes to the demonstration. */
export async function openDesk(): Promise<void> {
  served = await serveApp();
  browser = await sharedChromium();
  const context = await browser.newContext({ viewport: small, acceptDownloads: true, hasTouch: true });
  // A machine that does other things paints slowly without a graphics card.
  context.setDefaultTimeout(80_000);
  page = await newPage(context);
}

export async function closeDesk(): Promise<void> {
  await closePages(browser);
  served?.close();
}

export const button = (name: RegExp): Locator => page.getByRole('button', { name }).first();

/** To the finding, which stays unfolded from the first time on. */
export async function unfoldFinding(): Promise<void> {
  await button(/finding$/i).click();
  const unfold = page.getByRole('button', { name: /unfold the finding/i });
  await page.locator('.finding-sentence').or(unfold).first().waitFor();
  if (await unfold.count()) await unfold.click();
}

/** What stands in the margin. */
export const margin = async (): Promise<string> => (await page.locator('.margin').textContent()) ?? '';

/** Until nothing is worked on and the numbers are those that the document asks for. */
export const judged = (): Promise<void> =>
  settled(
    page,
    () =>
      !document.querySelector('.working') &&
      document.querySelectorAll('.caption .legends p').length === 2 &&
      !document.querySelector('.margin')?.textContent?.includes('measured again'),
  );

const folder = mkdtempSync(join(tmpdir(), 'ectype-demonstration-'));

/** The path of what the page hands over when it is asked. */
export async function saved(click: () => Promise<void>): Promise<string> {
  const [download] = await Promise.all([
    page.waitForEvent('download', { timeout: 80_000 }) as Promise<Download>,
    click(),
  ]);
  const path = join(folder, download.suggestedFilename());
  await download.saveAs(path);
  return path;
}
