import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parseGlb, writeGlb } from '../../src/app/saved/glb.ts';
import { castPly } from './castPly.ts';
import { closePages, sharedChromium } from './chromium.ts';
import { openingPair } from './openingPair.ts';
import { appFolder, serveApp } from './served.ts';
import { kept } from './waits.ts';

let browser: Browser;
let served: Awaited<ReturnType<typeof serveApp>>;
const troubles: string[] = [];
const fixture = readFileSync('tests/app/fixtures/saved-2.glb');
const patience = 60_000;

beforeAll(async () => {
  served = await serveApp();
  browser = await sharedChromium();
}, 180_000);

afterAll(async () => {
  await closePages(browser);
  served?.close();
}, patience);

async function newTab(context: BrowserContext, hash = '#empty'): Promise<Page> {
  const page = await context.newPage();
  page.on('pageerror', (error) => troubles.push(error.message));
  page.on('console', (message) => message.type() === 'error' && troubles.push(message.text()));
  await page.goto(`${served.url}${hash}`);
  await page.waitForSelector('.running-head');
  return page;
}

async function fresh(): Promise<BrowserContext> {
  const context = await browser.newContext({ viewport: { width: 1024, height: 768 }, acceptDownloads: true });
  context.setDefaultTimeout(patience);
  return context;
}

const glb = (name: string, buffer: Buffer) => ({ name, mimeType: 'model/gltf-binary', buffer });

async function bring(page: Page, files: Parameters<ReturnType<Page['locator']>['setInputFiles']>[0]): Promise<void> {
  await page.getByRole('button', { name: /bring in$/i }).click();
  await page.getByLabel('Scan files').setInputFiles(files);
}

/** A scan of few triangles, where the scan itself is not the subject. */
const small = (name: string) => ({
  name: `${name}.ply`,
  mimeType: 'application/octet-stream',
  buffer: castPly(40, 30 + 4 * name.length),
});

const step = (page: Page, name: RegExp) => page.getByRole('button', { name }).first().click();

/** Puts a value at a place. */
const put = (path: readonly string[], value: unknown) => (root: object) => {
  const inside = path.slice(0, -1).reduce((here, key) => (here as Record<string, object>)[key], root);
  (inside as Record<string, unknown>)[path.at(-1) ?? ''] = value;
};

/** The fixture with its own part changed. */
function edited(change: (ectype: never) => void): Buffer {
  const read = parseGlb(new Uint8Array(fixture));
  const json = read?.json as { asset: { extras: { ectype: unknown } } };
  change(json.asset.extras.ectype as never);
  return Buffer.from(writeGlb({ json: json as never, binary: read?.binary ?? new Uint8Array(0) }));
}

const scansOf = (page: Page): Promise<string[]> =>
  page.locator('.card textarea').evaluateAll((all) => all.map((one) => (one as HTMLTextAreaElement).value));

describe('a saved comparison', () => {
  const forged = edited((ectype: { results: { stated: { sentence: string } } }) => {
    ectype.results.stated.sentence = 'FORGED: beyond doubt.';
  });

  let page: Page;

  it('is quoted, kept over a reload, and gives way to what is measured from its surfaces', async () => {
    page = await newTab(await fresh());
    await bring(page, glb('forged.glb', forged));
    await page.waitForSelector('.from-file');
    await step(page, /finding$/i);
    await step(page, /unfold what the file states/i);
    expect(await page.locator('.stated-sentence').textContent()).toContain('FORGED');
    expect(await page.locator('.finding-sentence').count()).toBe(0);
    await kept(page);
    await page.reload();
    await page.waitForSelector('.stated-sentence');
    expect(await page.locator('.from-file').count()).toBe(1);
    await step(page, /measure the surfaces/i);
    await page.waitForFunction(
      () =>
        !document.querySelector('.from-file') &&
        !document.querySelector('.working') &&
        document.querySelector('.finding-sentence, [role="alert"]'),
    );
    expect(await page.locator('body').textContent()).not.toContain('FORGED');
    expect(await page.locator('.caption').textContent()).toContain('reduced surface');
    await page.keyboard.press('Control+z');
    await page.waitForSelector('.stated-sentence');
  }, 170_000);

  it('is measured anew from its originals, known by their digests', async () => {
    expect(await page.locator('.from-file').count()).toBe(1);
    const { reference, subject } = openingPair();
    await bring(
      page,
      [reference, subject].map(({ file }) => join(appFolder, 'samples', file)),
    );
    await page.waitForSelector('.notice');
    expect(await page.locator('.notice').textContent()).toMatch(/known by its digest/i);
    expect(await scansOf(page)).toHaveLength(2);
    await step(page, /finding$/i);
    await page.waitForFunction(() => !document.querySelector('.from-file') && !document.querySelector('.working'));
    await page.waitForSelector('.finding-sentence');
    expect(await page.locator('body').textContent()).not.toContain('FORGED');
    await page.context().close();
  }, 170_000);

  it('that is damaged is refused in one sentence, and the page stands after a reload as before', async () => {
    const context = await fresh();
    const page = await newTab(context);
    await bring(page, glb('good.glb', fixture));
    await page.waitForSelector('.from-file');
    const bad: [string, Buffer, RegExp][] = [
      ['no-camera.glb', edited(put(['document', 'view', 'camera'], null)), /camera/],
      ['no-scans.glb', edited(put(['document', 'scans'], null)), /scans/],
      ['later.glb', edited(put(['schema'], 'ectype/saved/9')), /later version/],
      ['short.glb', fixture.subarray(0, 60_000), /not as large|damaged|no glTF|short/i],
    ];
    for (const [name, buffer, words] of bad) {
      await bring(page, glb(name, buffer));
      const said = page.locator('.notice p', { hasText: name });
      await said.waitFor();
      expect(await said.textContent()).toMatch(words);
    }
    await kept(page);
    await page.reload();
    await step(page, /compare$/i);
    await page.waitForSelector('.from-file');
    expect(await page.locator('.mishap').count()).toBe(0);
    await context.close();
  }, 170_000);

  it.each(['{"asset":null}', '{"meshes":[]}', 'null', '{"asset":{'])(
    'an ordinary GLB of %s is answered with a sentence that names it',
    async (text) => {
      if (page.isClosed()) page = await newTab(await fresh());
      const name = `broken-${text.length}.glb`;
      const padded = Buffer.from(text.padEnd(16));
      const head = Buffer.alloc(20);
      [0x46546c67, 2, 36, 16, 0x4e4f534a].forEach((word, i) => {
        head.writeUInt32LE(word, 4 * i);
      });
      await bring(page, glb(name, Buffer.concat([head, padded])));
      await page.waitForSelector('.card [role="alert"]');
      expect(await page.locator('.card [role="alert"]').textContent()).toContain(name);
      await page.keyboard.press('Control+z');
      await expect.poll(() => page.locator('.card').count()).toBe(0);
    },
    90_000,
  );
});

describe('two tabs', () => {
  it('have a session each; a reload brings back its own, and what a closed tab left can be gone on with', async () => {
    const context = await fresh();
    const [one, two] = [await newTab(context), await newTab(context)];
    await bring(one, small('one'));
    await bring(two, small('other'));
    for (const page of [one, two]) await page.waitForSelector('.facts-line');
    const titles = [await scansOf(one), await scansOf(two)];
    expect(titles[0]).not.toEqual(titles[1]);
    for (const page of [one, two]) await kept(page);
    for (const page of [two, one, two]) {
      await page.reload();
      await page.waitForSelector('.facts-line');
    }
    expect([await scansOf(one), await scansOf(two)]).toEqual(titles);
    await two.close();
    const three = await newTab(context);
    expect(await scansOf(three)).toEqual([]);
    await three.getByRole('button', { name: /go on with it/i }).click();
    await three.waitForSelector('.facts-line');
    expect(await scansOf(three)).toEqual(titles[1]);
    await one.reload();
    await one.waitForSelector('.facts-line');
    expect(await scansOf(one)).toEqual(titles[0]);
    await context.close();
  }, 170_000);
});

describe('the start', () => {
  /** Puts something in the place of this tab's session. */
  const spoil = (page: Page, session: unknown): Promise<unknown> =>
    page.evaluate(async (value) => {
      const name = sessionStorage.getItem('ectype session') ?? '';
      const base = await new Promise<IDBDatabase>((resolve, reject) => {
        const request = indexedDB.open('ectype');
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
      const write = base
        .transaction('sessions', 'readwrite')
        .objectStore('sessions')
        .put({ at: Date.now(), troubled: false, session: value }, name);
      await new Promise((resolve) => {
        write.onsuccess = resolve;
      });
      base.close();
      // The page saves itself when it is left; here it is not to.
      addEventListener('pagehide', (event) => event.stopImmediatePropagation(), { capture: true });
    }, session);

  it.each([
    ['nothing', null],
    ['a false shape', { document: { scans: [{ id: 3 }] } }],
    ['a null camera', { document: { scans: [], view: { camera: null } } }],
  ])(
    'is not stopped by a session that holds %s; the old one can be saved',
    async (_, session) => {
      const context = await fresh();
      const page = await newTab(context);
      await kept(page);
      // Taken over by a tab that has not begun to save yet: the page's own last save cannot come after.
      await page.goto(`${served.url}samples/samples.json`);
      await spoil(page, session);
      await page.goto(`${served.url}#empty`);
      await page.waitForSelector('.notice');
      expect(await page.locator('.notice').textContent()).toMatch(/damaged.*set aside/);
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: /save the old session/i }).click(),
      ]);
      expect(JSON.parse(readFileSync((await download.path()) ?? '', 'utf8'))).toEqual(session);
      await page.reload();
      await page.waitForSelector('.running-head');
      expect(await page.locator('.notice').count()).toBe(0);
      await context.close();
    },
    90_000,
  );

  it('says what the store of the browser is: denied, or full', async () => {
    for (const [name, words] of [
      ['SecurityError', /does not let the page keep/],
      ['QuotaExceededError', /no space left/],
      ['UnknownError', /cannot be used/],
    ] as const) {
      const context = await fresh();
      await context.addInitScript((kind) => {
        IDBFactory.prototype.open = () => {
          throw new DOMException('no', kind);
        };
      }, name);
      const page = await newTab(context);
      await page.waitForSelector('.notice');
      expect(await page.locator('.notice').textContent()).toMatch(words);
      await bring(page, small('one'));
      await page.waitForSelector('.facts-line');
      await context.close();
    }
  }, 170_000);

  it('after a fault in drawing offers to start empty and to save the old session', async () => {
    const context = await fresh();
    const page = await newTab(context);
    await bring(page, small('one'));
    await page.waitForSelector('.facts-line');
    await kept(page);
    // A browser without this call breaks the drawing of a number.
    await context.addInitScript(() => {
      if (location.hash !== '#empty' || sessionStorage.getItem('broken')) return;
      sessionStorage.setItem('broken', 'once');
      Number.prototype.toLocaleString = () => {
        throw new Error('broken on purpose');
      };
    });
    await page.reload();
    await page.waitForSelector('.mishap');
    expect(await page.locator('.mishap').textContent()).toContain('broken on purpose');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: /save the old session/i }).click(),
    ]);
    expect(JSON.parse(readFileSync((await download.path()) ?? '', 'utf8')).document.scans).toHaveLength(1);
    await page.getByRole('button', { name: /start empty/i }).click();
    await page.waitForSelector('.running-head');
    expect(await scansOf(page)).toEqual([]);
    // React says in the console what broke.
    troubles.splice(0, troubles.length, ...troubles.filter((line) => !/broken on purpose|boundary/.test(line)));
    await context.close();
  }, 90_000);
});

describe('all of this', () => {
  it('without a fault of the page and without code made from text', () => {
    expect(troubles).toEqual([]);
  });
});
