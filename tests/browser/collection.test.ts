import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { networkInterfaces, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Recipe } from '../../sample-scans/generator/index.ts';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { writePly } from '../../src/core/scan/index.ts';
import { ectype } from '../cli/run.ts';
import { nothingInBoth, violations, violationsInBoth } from './axe.ts';
import { closePages, sharedChromium } from './chromium.ts';

/** Another seal, in a file that leaves its unit open. */
const odric = resolve('sample-scans/odric-impression.ply');
const recipe: Recipe = {
  ...randomRecipe(15, 'same', { vertices: 16_000, wear: [0.1, 0.1], clutter: [0, 0] }),
  ...{ whole: false, coverage: 1, sizeMm: 34, warpMm: 0.05 },
};
/** A matrix and an impression of it; however that shrank and was worn, the matrix stays the same. */
const pressed = (shrink: number, wear = recipe.wear) => makePair({ ...recipe, shrink, wear });
/** For what a worker has to bring. */
const soon = { timeout: 30_000 };
let folder = '';
let browser: Browser;
let server: ChildProcess;
let url = '';

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'ectype-rooms-'));
  const [first, second, another] = [pressed(0.03), pressed(0.01, 0.2), pressed(0.02, 0.3)];
  for (const [name, { positions, triangles }] of Object.entries({
    matrix: first.reference,
    first: first.subject,
    second: second.subject,
    another: another.subject,
  }))
    writeFileSync(join(folder, `${name}.ply`), writePly(positions, triangles));
  const rows = [
    ['matrix.ply', 'M 1', 'matrix', 'mm'],
    ['first.ply', 'W 1', 'impression', 'mm'],
    ['second.ply', 'W 2', 'impression', 'mm'],
    [odric, 'W 3', 'impression', 'mm'],
  ].map((row) => row.join());
  const manifest = join(folder, 'manifest.csv');
  writeFileSync(manifest, ['file,shelfmark,kind,unit', ...rows, 'gone.ply,W 4,cast,mm'].join('\n'));
  const ran = ectype('add', manifest, '--to', join(folder, 'seals'));
  expect(ran.status, ran.stderr).toBe(0);
  const [child, address] = serve();
  server = child;
  [url, browser] = await Promise.all([address, sharedChromium()]);
}, 240_000);

afterAll(async () => {
  await closePages(browser);
  server?.kill();
  rmSync(folder, { recursive: true, force: true });
}, 60_000);

/** `ectype serve --in` on a free port; the address that it prints for the collection. */
function serve(...more: string[]): [ChildProcess, Promise<string>] {
  const order = ['dist/cli/main.js', 'serve', '--in', join(folder, 'seals'), '--port', '0', ...more];
  const child = spawn(process.execPath, order);
  const address = new Promise<string>((found, lost) => {
    let said = '';
    child.once('exit', () => lost(new Error(`ectype serve ended: ${said}`)));
    child.stdout?.on('data', (part: Buffer) => {
      said += part.toString();
      const told = /The collection is at (\S+)/.exec(said)?.[1];
      if (told) found(told);
    });
  });
  return [child, address];
}

async function opened(room = '', options: Parameters<Browser['newContext']>[0] = {}): Promise<[Page, BrowserContext]> {
  const context = await browser.newContext({ viewport: { width: 1024, height: 768 }, ...options });
  const page = await context.newPage();
  await page.goto(`${url}${room}`);
  await page.locator('main').waitFor();
  return [page, context];
}

async function drop(page: Page, path: string): Promise<void> {
  const file = { name: path.split('/').at(-1) ?? '', bytes: readFileSync(path).toString('base64') };
  const carried = await page.evaluateHandle(({ name, bytes }) => {
    const data = new DataTransfer();
    data.items.add(new File([Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0))], name));
    return data;
  }, file);
  await page.dispatchEvent('.drop-target', 'drop', { dataTransfer: carried });
}

const sign = (page: Page, by: string): Promise<void> => page.getByLabel('by', { exact: true }).first().fill(by);
const chosen = (page: Page) => page.getByRole('region', { name: 'Chosen' });
const choose = async (page: Page, ...shelfmarks: string[]): Promise<void> => {
  for (const one of shelfmarks) await page.getByRole('checkbox', { name: `choose ${one}` }).check();
};
/** What the room says, once it says so. */
/** Waits until the page says so; where it does not, what it says instead is told. */
async function says(page: Page, words: RegExp): Promise<void> {
  try {
    await page.getByText(words).first().waitFor({ timeout: 60_000 });
  } catch (error) {
    throw new Error(`${error}
The page says: ${await page.locator('body').innerText({ timeout: 5_000 })}`);
  }
}

describe('the tray of a collection', () => {
  it('shows its scans, searched and sorted, and what could not be used in one folded line', async () => {
    const [page, context] = await opened();
    const names = () => page.locator('tbody b').allTextContents();
    await expect.poll(names).toEqual(['M 1', 'W 1', 'W 2', 'W 3']);
    await page.getByRole('button', { name: 'face' }).click();
    await expect.poll(names).toEqual(['W 3', 'W 1', 'M 1', 'W 2']);
    await page.getByLabel('Find in the tray').fill('impression odric');
    await expect.poll(names).toEqual(['W 3']);
    await page.getByLabel('Find in the tray').fill('nowhere');
    await expect.poll(names).toEqual([]);
    expect(await page.getByText('gone.ply: there is no such file').isVisible()).toBe(false);
    await page.getByText('1 scan could not be used').click();
    expect(await page.getByText('gone.ply: there is no such file').isVisible()).toBe(true);
    await context.close();
  });

  it('lays two that are brought together beside one another, by hand and by keys, and compares them', async () => {
    const [page, context] = await opened();
    await page.locator('tr', { hasText: 'W 3' }).dragTo(page.locator('tr', { hasText: 'M 1' }));
    await expect.poll(() => page.url()).toMatch(/#pair-1-4$/);
    await says(page, /This pair was not verified/);
    await page.goto(url);
    await choose(page, 'M 1', 'W 1');
    await page.getByRole('link', { name: 'Lay the two beside one another' }).press('Enter');
    await expect.poll(() => page.url()).toMatch(/#pair-1-2$/);
    await says(page, /places agree, marked on both/);
    await page.getByRole('button', { name: 'Compare them now' }).click();
    await says(page, /The evidence supports/);
    expect(await page.locator('.found-grounds li').count()).toBeGreaterThan(1);
    await context.close();
  }, 120_000);
});

describe('a scan that is dropped on a collection', () => {
  it('brings candidates with picture and why, and each is verified', async () => {
    const [page, context] = await opened('#groups');
    await drop(page, join(folder, 'another.ply'));
    await expect.poll(() => page.url()).toMatch(/#search$/);
    const first = page.locator('.candidate').first();
    await first.waitFor({ timeout: 60_000 });
    expect(await first.locator('b').textContent()).toMatch(/^[MW] [12]$/);
    expect(await first.locator('img').getAttribute('src')).toMatch(/^pictures\//);
    expect(await first.textContent()).toMatch(/\d+ places agree/);
    await says(page, /Each was verified/);
    expect(await first.textContent()).toMatch(/one matrix or a faithful copy of it is supported/);
    // One candidate's face and the dropped one's lie under the lamp, the places that agree marked on both.
    await expect.poll(() => page.locator('.agreeing').count(), soon).toBe(2);
    expect(await page.locator('.candidate').allTextContents()).not.toContainEqual(expect.stringMatching(/match/i));
    await context.close();
  }, 180_000);

  it('is asked for its unit where the file leaves it open, and refused in a sentence where it is none', async () => {
    const [page, context] = await opened();
    writeFileSync(join(folder, 'words.ply'), 'no scan at all');
    await drop(page, join(folder, 'words.ply'));
    await page.getByRole('alert').waitFor();
    expect(await page.getByRole('alert').textContent()).toMatch(/words\.ply/);
    await drop(page, odric);
    await says(page, /How large is it/);
    await page.getByRole('button', { name: /\(mm\)/ }).click();
    await says(page, /This very file is in the collection: W 3/);
    await context.close();
  });
});

describe('the groups of a collection', () => {
  it('show all members on one sheet at one scale, and what links them when it is asked', async () => {
    const [page, context] = await opened('#groups');
    await page.getByRole('link', { name: 'group-1', exact: true }).click();
    await expect.poll(() => page.locator('.sheet-name').count(), soon).toBe(3);
    expect(await page.locator('.links li').first().isVisible()).toBe(false);
    await page.getByText('What links them').click();
    await page.locator('.links li').first().waitFor();
    expect(await page.locator('.links').textContent()).toMatch(/is supported \(strong, score \d/);
    const sun = page.getByRole('slider', { name: /^Lamp/ });
    const before = await sun.getAttribute('aria-valuenow');
    await sun.press('ArrowRight');
    expect(await sun.getAttribute('aria-valuenow')).not.toBe(before);
    await context.close();
  }, 60_000);

  it('are named, noted, split and joined, signed and dated', async () => {
    const [page, context] = await opened('#group-1');
    const today = new Date().toISOString().slice(0, 10);
    await page.getByLabel('Name of the group').fill('The Averholt seal');
    await page.getByRole('button', { name: 'Name it' }).click();
    await says(page, /Say who decides/);
    await sign(page, 'Anna');
    await page.getByRole('button', { name: 'Name it' }).click();
    await page.getByRole('heading', { name: 'The Averholt seal' }).waitFor();
    await page.getByLabel('Note').fill('seen together on Monday');
    await page.getByRole('button', { name: 'Add the note' }).click();
    await says(page, new RegExp(`note by Anna, ${today}: M 1; W 1; W 2: seen together on Monday`));
    for (const name of ['W 1', 'M 1']) await page.getByRole('button', { name: new RegExp(`^${name}`) }).click();
    await chosen(page).getByLabel('why').fill('other letters');
    await page.getByRole('button', { name: /^Split/ }).click();
    await page.goto(`${url}#tray`);
    const groupOf = (name: string) => page.locator('tr', { hasText: name }).locator('td').last().textContent();
    await expect.poll(async () => (await groupOf('M 1')) === (await groupOf('W 1'))).toBe(false);
    await choose(page, 'M 1', 'W 1');
    await page.getByRole('button', { name: /^Join/ }).click();
    await expect.poll(async () => (await groupOf('M 1')) === (await groupOf('W 1'))).toBe(true);
    const told = await (await fetch(`${url}all.json`)).json();
    const kinds = told.groups.groups[0].decisions.map(({ kind, by }: { kind: string; by: string }) => `${kind} ${by}`);
    expect(kinds).toEqual(['name Anna', 'note Anna', 'split Anna', 'join Anna']);
    await context.close();
  }, 60_000);

  it('show both versions to the second of two writers, who chooses', async () => {
    const [one, first] = await opened('#group-1');
    const [other, second] = await opened('#group-1');
    for (const [page, by, name] of [
      [one, 'Anna', 'The oak'],
      [other, 'Bela', 'The ash'],
    ] as const) {
      await page.getByLabel('Name of the group').fill(name);
      await sign(page, by);
    }
    await one.getByRole('button', { name: 'Name it' }).click();
    await one.getByRole('heading', { name: 'The oak' }).waitFor();
    await other.getByRole('button', { name: 'Name it' }).click();
    const sheet = other.getByRole('dialog');
    await sheet.waitFor();
    expect(await sheet.getByRole('region', { name: 'What stands' }).textContent()).toMatch(/Anna.*The oak/);
    expect(await sheet.getByRole('region', { name: 'What you decide' }).textContent()).toMatch(/The ash/);
    expect(await violations(other), 'both versions').toEqual([]);
    await sheet.getByRole('button', { name: 'Keep what stands' }).click();
    await other.getByRole('heading', { name: 'The oak' }).waitFor();
    // Having seen the other's, one's own is taken.
    await other.getByRole('button', { name: 'Name it' }).click();
    await other.getByRole('heading', { name: 'The ash' }).waitFor();
    await Promise.all([first.close(), second.close()]);
  }, 60_000);

  it('lose a scan that is taken out, signed, after it was asked whether', async () => {
    const [page, context] = await opened();
    await choose(page, 'W 3');
    await sign(page, 'Anna');
    await page.getByRole('button', { name: 'take out of the collection' }).click();
    await page.getByRole('button', { name: 'Take out this scan' }).click();
    await says(page, /1 scan was taken out/);
    expect(await page.locator('tbody b').allTextContents()).toEqual(['M 1', 'W 1', 'W 2']);
    await context.close();
  });
});

/** An address of this computer in its network. */
const own = Object.values(networkInterfaces())
  .flatMap((all) => all ?? [])
  .find(({ family, internal }) => family === 'IPv4' && !internal)?.address;

describe.skipIf(!own)('a collection that is served at a stated address', () => {
  it('opens with its token, over an unencrypted network, the app beside it too', async () => {
    const [child, address] = serve('--address', own as string);
    try {
      const withToken = await address;
      const context = await browser.newContext({ viewport: { width: 1024, height: 768 } });
      const page = await context.newPage();
      expect((await page.goto(withToken.replace(/\?.*/, '')))?.status()).toBe(401);
      await page.goto(withToken);
      await page.locator('tbody b').first().waitFor();
      expect(page.url()).not.toContain('token');
      await page.getByRole('link', { name: 'the plate' }).click();
      // Without a secure origin the browser gives the page no names and no digests.
      await says(page, /Depth differences/i);
      await context.close();
    } finally {
      child.kill();
    }
  }, 120_000);
});

describe('the rooms of a collection are open to everybody', () => {
  it('axe finds nothing in any of them, in light and dark', async () => {
    const [page, context] = await opened();
    await choose(page, 'M 1', 'W 1');
    expect(await violationsInBoth(page), 'tray').toEqual(nothingInBoth);
    for (const room of ['#groups', '#search', '#group-1', '#pair-1-2']) {
      await page.goto(`${url}${room}`);
      await page.locator('main section, main .drop-place').first().waitFor();
      expect(await violationsInBoth(page), room).toEqual(nothingInBoth);
    }
    await page.getByRole('link', { name: 'the plate' }).click();
    await page.getByRole('link', { name: 'collection' }).waitFor();
    await context.close();
  }, 60_000);
});
