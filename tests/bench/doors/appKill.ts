import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { parseGlb } from '../../../src/app/saved/glb.ts';
import { type Random, seededRandom } from '../../../src/core/geometry/index.ts';
import { openOnProfile, type ProfileChromium } from '../../browser/chromium.ts';
import { serveApp } from '../../browser/served.ts';
import { tableOf } from '../table.ts';
import { bring, chanceFile, type Held, heldIn, type Kept, listening, troublesOf } from './appStore.ts';

/** So many kills on one profile before the next begins empty. */
const perProfile = 10;
const savedFile = 'ectype-comparison.glb';

interface Seen {
  filesKept: number;
  before: number;
  after: number;
  goneOnWith: number;
  downloads: number;
  whole: number;
  faults: string[];
}

/**
 * `npm run bench -- app-kill [COUNT] [SEED]`: kill −9 of a real browser at random moments of saving in the app. In every round scans are
 * brought in, and in every third a saved comparison is opened and saved to a file; the browser is opened again on the same profile.
 * What its store had said to be kept must be there with the same bytes, no session may name bytes that are not, the page
 * must stand and go on with the work, and no half of a file may bear the name of the saved comparison.
 */
export async function appKill(count: number, seed = 311): Promise<void> {
  const served = await serveApp();
  const random = seededRandom(seed);
  const seen: Seen = { filesKept: 0, before: 0, after: 0, goneOnWith: 0, downloads: 0, whole: 0, faults: [] };
  for (let first = 0; first < count; first += perProfile) {
    const profile = mkdtempSync(join(tmpdir(), 'ectype-profile-'));
    const round = { url: served.url, profile, kept: { files: [], sessions: new Map() } as Kept };
    try {
      // One life more than kills: the last only looks.
      for (let k = first; k <= Math.min(count, first + perProfile); k++) {
        const last = k === Math.min(count, first + perProfile);
        await oneLife(round, random, seen, k, last).catch((error) =>
          seen.faults.push(`round ${k}: ${String(error).slice(0, 300)}`),
        );
        process.stderr.write(`\r${k} of ${count}: ${JSON.stringify({ ...seen, faults: seen.faults.length })}`);
      }
    } finally {
      rmSync(profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
    }
  }
  served.close();
  const row = (what: string, measured: number | string, floor = '') => ({ what, floor, measured: String(measured) });
  process.stdout.write(
    `\n${tableOf([
      row(`kills (seed ${seed})`, count),
      row('of them before the store had said anything / after the last write', `${seen.before} / ${seen.after}`),
      row('files that the store had said to be kept', seen.filesKept),
      row('times that the work was gone on with', seen.goneOnWith),
      row('kills while a comparison was saved to a file; whole files found', `${seen.downloads}; ${seen.whole}`),
      row('lost, torn, or a page that does not stand', seen.faults.length, '0'),
    ])}\n${seen.faults.join('\n')}\n`,
  );
}

interface Round {
  readonly url: string;
  readonly profile: string;
  /** All that was kept on this profile so far. */
  kept: Kept;
}

/** One life of the browser: what the one before left is looked at, then work is done until the kill. */
async function oneLife(round: Round, random: Random, seen: Seen, k: number, last: boolean): Promise<void> {
  const chromium = await openOnProfile(round.profile);
  try {
    const context = chromium.browser.contexts()[0];
    const page = context.pages()[0] ?? (await context.newPage());
    page.setDefaultTimeout(15_000);
    const held = await heldIn(page, round.url);
    for (const trouble of troublesOf(held, round.kept)) seen.faults.push(`before round ${k}: ${trouble}`);
    // Files without a session are swept at the start; what a session names stays.
    round.kept = await listening(context, round.kept.sessions);
    await page.goto(`${round.url}#empty`);
    await page.waitForSelector('.running-head');
    if (await wentOn(page, held)) seen.goneOnWith++;
    if (!last) await workUntilKilled(chromium, page, round, random, seen, k);
  } finally {
    await chromium.kill();
    await chromium.browser.close().catch(() => undefined);
  }
  wholeFiles(round.profile, seen);
}

/** Goes on with what the killed browser left: every scan of the youngest session must stand on the page. */
async function wentOn(page: Page, held: Held): Promise<boolean> {
  if (!Object.values(held.sessions).some((scans) => scans.length > 0)) return false;
  await page.getByRole('button', { name: /bring in$/i }).click();
  await Promise.all([page.waitForEvent('load'), page.getByRole('button', { name: /go on with it/i }).click()]);
  // It opens at the step where it was left.
  await page.getByRole('button', { name: /bring in$/i }).click();
  await page.waitForSelector('.card textarea');
  const titles = await page
    .locator('.card textarea')
    .evaluateAll((all) => all.map((one) => (one as HTMLTextAreaElement).value));
  const sets = Object.values(held.sessions).map((scans) => scans.map(({ title }) => title).join());
  if (!sets.includes(titles.join())) throw new Error(`the page shows ${titles.join()}`);
  if ((await page.locator('.mishap').count()) > 0) throw new Error('the page could not be drawn');
  if ((await page.locator('.card', { hasText: 'gone from the browser' }).count()) > 0)
    throw new Error('bytes are gone');
  return true;
}

async function workUntilKilled(
  chromium: ProfileChromium,
  page: Page,
  round: Round,
  random: Random,
  seen: Seen,
  k: number,
): Promise<void> {
  const { kept } = round;
  const files = Array.from({ length: 1 + random.below(3) }, () => chanceFile(random, 2 ** (14 + random.below(9))));
  const toFile = k % 3 === 2;
  const [before, whenMs] = [kept.files.length, random.between(0, toFile ? 400 : 2_500)];
  if (toFile) {
    await savingToFile(chromium, page, round.profile);
    seen.downloads++;
  } else void bring(page, files).catch(() => undefined);
  await wait(whenMs);
  await chromium.kill();
  const named = [...kept.sessions.values()].some((names) => files.every(({ name }) => names.includes(name)));
  if (kept.files.length === before) seen.before++;
  else if (named) seen.after++;
  seen.filesKept += kept.files.length;
}

/** Opens a saved comparison, with nothing else on the plate, and begins to save it to a file. */
async function savingToFile(chromium: ProfileChromium, page: Page, profile: string): Promise<void> {
  const downloads = join(profile, 'downloads');
  mkdirSync(downloads, { recursive: true });
  const session = await chromium.browser.newBrowserCDPSession();
  await session.send('Browser.setDownloadBehavior', { behavior: 'allow', downloadPath: downloads });
  const other = await page.context().newPage();
  await other.goto(`${new URL(page.url()).origin}/#empty`);
  const buffer = readFileSync('tests/app/fixtures/saved-2.glb');
  await other.getByRole('button', { name: /bring in$/i }).click();
  await other.getByLabel('Scan files').setInputFiles([{ name: 'kept.glb', mimeType: 'model/gltf-binary', buffer }]);
  await other.waitForSelector('.from-file');
  await other.getByRole('button', { name: /show$/i }).first().click();
  const save = other.getByRole('button', { name: /save as GLB/i });
  await save.waitFor();
  void save.click().catch(() => undefined);
}

/** A file that bears the saved comparison's name is whole. */
function wholeFiles(profile: string, seen: Seen): void {
  const folder = join(profile, 'downloads');
  const names = (() => {
    try {
      return readdirSync(folder);
    } catch {
      return [];
    }
  })();
  for (const name of names.filter((one) => one.endsWith('.glb'))) {
    const bytes = new Uint8Array(readFileSync(join(folder, name)));
    const length = bytes.length >= 12 ? new DataView(bytes.buffer).getUint32(8, true) : 0;
    if (length === bytes.length && parseGlb(bytes)) seen.whole++;
    else seen.faults.push(`${name} of ${savedFile} is half: ${bytes.length} bytes`);
  }
  rmSync(folder, { recursive: true, force: true });
}
