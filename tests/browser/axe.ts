import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Violation {
  readonly id: string;
  readonly nodes: ReadonlyArray<{ readonly html: string }>;
}

interface Asked {
  readonly runOnly?: { readonly type: 'rule'; readonly values: readonly string[] };
}

/** The rules on colour among those that run unasked. */
const onColour: Asked = { runOnly: { type: 'rule', values: ['color-contrast', 'link-in-text-block'] } };

/** What axe finds on the page as it stands, of all its rules or of those asked. */
async function found(page: Page, asked: Asked): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe);
  return page.evaluate(async (options) => {
    const { axe: run } = window as unknown as { axe: { run(asked: Asked): Promise<{ violations: Violation[] }> } };
    const { violations } = await run.run(options);
    return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' | ')}`);
  }, asked);
}

export const violations = (page: Page): Promise<string[]> => found(page, {});

/**
 * What axe finds in both grounds, the light one first. In the dark one only its rules on colour are asked: nothing but colour
 * follows the ground (`src/app/look/useTones.ts`; no style sheet asks for it).
 */
export async function violationsInBoth(page: Page): Promise<{ light: string[]; dark: string[] }> {
  await page.emulateMedia({ colorScheme: 'light' });
  const light = await found(page, {});
  await page.emulateMedia({ colorScheme: 'dark' });
  // The page is drawn anew on the other ground, and some colours go over slowly.
  await page.evaluate(() => new Promise((next) => requestAnimationFrame(() => requestAnimationFrame(next))));
  await page.waitForFunction(() => document.getAnimations().every(({ playState }) => playState !== 'running'));
  const dark = await found(page, onColour);
  return { light, dark };
}

/** Nothing found in either. */
export const nothingInBoth = { light: [], dark: [] };
