import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { mutatedGlb, mutateJson, randomOf } from '../app/mutations.ts';
import { openChromium } from '../browser/chromium.ts';
import { serveApp } from '../browser/served.ts';

const firstSeed = 77_000;
const fixture = (name: string): Uint8Array => new Uint8Array(readFileSync(`tests/app/fixtures/${name}`));

interface Tally {
  opened: number;
  refused: number;
  asScan: number;
  /** The longest silences of the page, longest first. */
  silences: { readonly seed: number; readonly ms: number; readonly came: string }[];
  faults: string[];
}

/**
 * Drives `count` damaged saved comparisons and, for every tenth, a damaged session into the built app in a real browser. After
 * each the page must answer with a sentence or an open comparison, must not fall silent for long, must show nothing of the
 * file as its own finding, and must start again.
 */
export async function savedInBrowser(count: number): Promise<void> {
  const served = await serveApp();
  const browser = await openChromium();
  const tally: Tally = { opened: 0, refused: 0, asScan: 0, silences: [], faults: [] };
  try {
    const page = await browser.newPage({ viewport: { width: 1024, height: 768 } });
    page.setDefaultTimeout(30_000);
    await begin(page, served.url);
    for (let i = 0; i < count; i++) {
      const seed = firstSeed + i;
      await one(page, seed, i, tally).catch((error) =>
        tally.faults.push(`seed ${seed}: ${String(error).slice(0, 200)}`),
      );
      if (i % 10 === 9)
        await spoiledStart(page, seed, served.url).catch((error) =>
          tally.faults.push(`start ${seed}: ${String(error).slice(0, 200)}`),
        );
      if (i % 10 === 9 || tally.faults.length > 0) await begin(page, served.url);
      if (i % 50 === 49)
        process.stderr.write(
          `${i + 1}: ${JSON.stringify({ ...tally, silences: tally.silences[0], faults: tally.faults.length })}\n`,
        );
    }
  } finally {
    await browser.close();
    served.close();
  }
  const { opened, refused, asScan, silences, faults } = tally;
  console.log(
    `seeds ${firstSeed} to ${firstSeed + count - 1}: ${opened} opened, ${refused} refused, ${asScan} taken for scans and answered`,
  );
  const longest = silences.map(({ seed, ms, came }) => `${ms.toFixed(0)} ms (seed ${seed}, ${came})`);
  console.log(`longest silences of the page: ${longest.join(', ')}; faults: ${faults.length}`);
  for (const fault of faults) console.log(fault);
}

async function begin(page: Page, url: string): Promise<void> {
  await page.goto(`${url}#empty`);
  await page.reload();
  await page.waitForSelector('.running-head');
  await page.evaluate(() => {
    const watch = { worst: 0, last: performance.now() };
    (window as unknown as { silence: typeof watch }).silence = watch;
    setInterval(() => {
      const now = performance.now();
      watch.worst = Math.max(watch.worst, now - watch.last);
      watch.last = now;
    }, 10);
  });
}

async function one(page: Page, seed: number, i: number, tally: Tally): Promise<void> {
  const name = `damaged-${seed}.glb`;
  const buffer = Buffer.from(mutatedGlb(fixture(i % 2 ? 'saved-1.glb' : 'saved-2.glb'), randomOf(seed)));
  await page.evaluate(() => {
    const watch = (window as unknown as { silence: { worst: number; last: number } }).silence;
    watch.worst = 0;
    watch.last = performance.now();
    (document.querySelector('.notice button:last-child') as HTMLElement | null)?.click();
  });
  await page.getByRole('button', { name: /bring in$/i }).click();
  await page.getByLabel('Scan files').setInputFiles({ name, mimeType: 'model/gltf-binary', buffer });
  const came = await page.waitForFunction((file) => {
    if (document.querySelector('.mishap')) return 'mishap';
    if (document.querySelector('.notice p')?.textContent?.includes(file)) return 'refused';
    if (document.querySelector('nav [aria-current]')?.textContent?.includes('Compare')) return 'opened';
    const card = [...document.querySelectorAll('.card')].find(
      (each) =>
        each.textContent?.includes(file.replace('.glb', '')) ||
        each.querySelector('textarea')?.value.includes(file.replace('.glb', '')),
    );
    return card?.querySelector('[role="alert"], .facts-line') && !document.querySelector('.working') ? 'asScan' : null;
  }, name);
  const what = String(await came.jsonValue());
  if (what === 'mishap') throw new Error('the page could not be drawn');
  tally[what as 'opened' | 'refused' | 'asScan']++;
  if (what === 'opened') {
    for (const step of [/fit$/i, /finding$/i, /show$/i]) await page.getByRole('button', { name: step }).first().click();
    if ((await page.locator('.mishap, .finding-sentence').count()) > 0)
      throw new Error('shown as its own finding, or not drawn');
  }
  const silence = await page.evaluate(() => (window as unknown as { silence: { worst: number } }).silence.worst);
  tally.silences = [...tally.silences, { seed, ms: silence, came: what }].sort((a, b) => b.ms - a.ms).slice(0, 5);
}

/** The session in the browser's store damaged, then the page opened on it: it must start. */
async function spoiledStart(page: Page, seed: number, url: string): Promise<void> {
  const session = mutateJson(JSON.parse(readFileSync('tests/app/fixtures/session-1.json', 'utf8')), randomOf(seed));
  await page.goto(`${url}samples/samples.json`);
  await page.evaluate(async (value) => {
    const request = indexedDB.open('ectype');
    await new Promise((resolve) => {
      request.onsuccess = resolve;
    });
    const stored = { at: Date.now(), troubled: false, session: value };
    const name = sessionStorage.getItem('ectype session') ?? '';
    const write = request.result.transaction('sessions', 'readwrite').objectStore('sessions').put(stored, name);
    await new Promise((resolve) => {
      write.onsuccess = resolve;
    });
    request.result.close();
  }, session);
  await page.goto(`${url}#empty`);
  await page.waitForSelector('.running-head');
  if ((await page.locator('.mishap').count()) > 0) throw new Error('the page could not be drawn');
}
