import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { seededRandom } from '../../../src/core/geometry/index.ts';
import { openOnProfile } from '../../browser/chromium.ts';
import { serveApp } from '../../browser/served.ts';
import { tableOf } from '../table.ts';
import { bring, chanceFile, heldIn, type Kept, listening, troublesOf } from './appStore.ts';

/** Bytes of a scan, and so many are brought in while the room is used up. */
const scanBytes = 2 ** 20;
const scans = 3;
/** What the store takes for itself and the session. */
const besideBytes = 65_536;

/**
 * `npm run bench -- app-full [SIZES] [SEED]`: a session with one scan is kept, then the browser's room for the page is set to so much
 * more than it uses, from nothing to more than enough, and three scans are brought in. The page must say what it could not keep,
 * what was kept before must be there with its bytes, and after a reload every scan is there or said to be gone.
 */
export async function appFull(sizes: number, seed = 411): Promise<void> {
  const served = await serveApp();
  const random = seededRandom(seed);
  const seen = { full: 0, kept: 0, faults: [] as string[] };
  const profile = mkdtempSync(join(tmpdir(), 'ectype-full-app-'));
  const chromium = await openOnProfile(profile);
  try {
    const context = chromium.browser.contexts()[0];
    const page = context.pages()[0];
    page.setDefaultTimeout(30_000);
    const kept = await listening(context);
    for (let k = 0; k < sizes; k++) {
      await oneSize(page, served.url, random, (1.3 * scans * scanBytes * k) / sizes, kept, seen).catch((error) =>
        seen.faults.push(`size ${k}: ${String(error).slice(0, 300)}`),
      );
      process.stderr.write(
        `\r${k + 1} of ${sizes}: ${seen.full} full, ${seen.kept} kept, ${seen.faults.length} faults`,
      );
    }
  } finally {
    await chromium.kill();
    await chromium.browser.close().catch(() => undefined);
    served.close();
    rmSync(profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  }
  const rows = [
    [`sizes of room (seed ${seed})`, '', sizes],
    ['too small: said, what was kept before is whole', '', seen.full],
    ['large enough: all kept', '', seen.kept],
    ['lost, torn, in silence, or a page that does not stand', '0', seen.faults.length],
  ] as const;
  process.stdout.write(
    `\n${tableOf(rows.map(([what, floor, measured]) => ({ what, floor, measured: String(measured) })))}\n${seen.faults.join('\n')}\n`,
  );
}

type Random = ReturnType<typeof seededRandom>;

async function oneSize(
  page: Page,
  url: string,
  random: Random,
  room: number,
  kept: Kept,
  seen: { full: number; kept: number; faults: string[] },
): Promise<void> {
  const origin = new URL(url).origin;
  const devtools = await page.context().newCDPSession(page);
  await devtools.send('Storage.overrideQuotaForOrigin', { origin });
  await devtools.send('Storage.clearDataForOrigin', { origin, storageTypes: 'indexeddb' });
  await page.evaluate(() => sessionStorage.clear()).catch(() => undefined);
  kept.files.length = 0;
  kept.sessions.clear();
  // From the beginning: the browser remembers for half a minute how much room it found.
  const quotaSize = Math.round(scanBytes + besideBytes + room);
  await devtools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize });
  await page.goto(`${url}#empty`);
  await page.reload();
  await page.waitForSelector('.running-head');
  const first = chanceFile(random, scanBytes);
  await bring(page, [first]);
  await until(
    () => [...kept.sessions.values()].some((names) => names.includes(first.name)),
    'the first scan is not kept',
  );
  const files = Array.from({ length: scans }, () => chanceFile(random, scanBytes));
  await bring(page, files);
  const all = () => [...kept.sessions.values()].some((names) => files.every(({ name }) => names.includes(name)));
  const said = async () =>
    /could not be kept|no space left/.test((await page.locator('.notice').allTextContents()).join());
  await until(async () => all() || (await said()), 'nothing was kept and nothing said');
  await page.waitForTimeout(600);
  const spoken = await said();
  await devtools.send('Storage.overrideQuotaForOrigin', { origin });
  const held = await heldIn(page, url);
  const there = files.filter(({ name }) =>
    Object.values(held.files).some((digest) => digest.startsWith(name.slice(0, 16))),
  );
  if (there.length < scans && !spoken) seen.faults.push(`${Math.round(room)} bytes: ${there.length} kept in silence`);
  const troubles = troublesOf(held, kept).filter((words) => !(spoken && words.endsWith('not there')));
  seen.faults.push(...troubles.map((words) => `${Math.round(room)} bytes: ${words}`));
  await page.goto(`${url}#empty`);
  await page.waitForSelector('.running-head');
  await page.getByRole('button', { name: /bring in$/i }).click();
  await page.waitForSelector('.card textarea');
  const gone = page.locator('.card', { hasText: 'gone from the browser' });
  const named = Object.values(held.sessions).flat().length;
  await until(async () => (await gone.count()) === named - 1 - there.length, 'a lost scan is not said to be gone');
  if ((await page.locator('.mishap').count()) > 0) throw new Error('the page could not be drawn');
  if (there.length < scans) seen.full++;
  else seen.kept++;
}

async function until(is: () => boolean | Promise<boolean>, otherwise: string): Promise<void> {
  for (let tries = 0; tries < 150; tries++) {
    if (await is()) return;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(otherwise);
}
