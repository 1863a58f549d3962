import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { type Comparison, comparePrepared, prepareScan } from '../../../src/core/pipeline.ts';
import { stateSentence } from '../../../src/core/report/index.ts';
import { findingSentence, limitWords } from '../../../src/core/report/words/index.ts';
import { openingPair } from '../openingPair.ts';
import { appFolder } from '../served.ts';
import { walkIn } from '../waits.ts';
import { browser, button, margin, newPage, page, saved, served, small, troubles, unfoldFinding } from './desk.ts';

/** Until nothing is worked on and the pair is compared. */
async function compared(): Promise<void> {
  await page.waitForFunction(
    () =>
      !document.querySelector('.working') &&
      /Depth differences/i.test(document.querySelector('.margin')?.textContent ?? ''),
    undefined,
    { timeout: 90_000 },
  );
}

/** The same pair by the same core, in Node: what the command line's record is made from. */
async function inNode(): Promise<Comparison> {
  const { reference, subject } = openingPair();
  const read = ({ file, stated }: typeof reference) =>
    prepareScan({ ...stated, name: file, bytes: new Uint8Array(readFileSync(join(appFolder, 'samples', file))) });
  return comparePrepared(await read(reference), await read(subject));
}

/** From the front door to the numbers, and what the hand does on the plate. */
export function opened(): void {
  it('shows a sample comparison when it is opened', async () => {
    const start = Date.now();
    const since = (): string => ((Date.now() - start) / 1000).toFixed(1);
    await page.goto(served.url);
    await walkIn(page);
    // The numbers stand beside the two seals before the evidence is weighed.
    await page.waitForFunction(() =>
      [...document.querySelectorAll('.margin h3')].some((head) => /depth differences/i.test(head.textContent ?? '')),
    );
    const shown = since();
    await compared();
    console.log(`a comparison on screen after ${shown} s, judged after ${since()} s`);
    expect(await page.locator('.caption .legends p').count()).toBe(2);
    expect(await page.locator('canvas').count()).toBeGreaterThan(0);
  }, 170_000);

  it('prints the numbers of the core', async () => {
    const comparison = await inNode();
    const { difference, judgement } = comparison;
    const text = (await margin()).replaceAll('−', '-');
    expect(difference).not.toBeNull();
    expect(text).toContain(`Median ${difference?.whole.medianMm.toFixed(3)} mm`);
    expect(text).toContain(`ratio ${difference?.size.ratio.toFixed(4)} ±`);
    await unfoldFinding();
    expect(await page.locator('.finding-sentence').textContent()).toBe(
      findingSentence(judgement, stateSentence(comparison)),
    );
    for (const limit of judgement.limits) expect(await margin()).toContain(limitWords(limit));
  }, 170_000);

  it('reads a depth difference where the hand points', async () => {
    await button(/^as differences$/i).click();
    const box = await page.locator('.plate').boundingBox();
    if (!box) throw new Error('no plate');
    let words = '';
    for (const share of [0.5, 0.45, 0.55, 0.4, 0.6]) {
      await page.mouse.move(box.x + box.width / 2, box.y + box.height * share);
      words = (await page.locator('.pointed text').allTextContents()).join(' ');
      if (words) break;
    }
    expect(words).toMatch(/[+−]?\d\.\d\d ± \d\.\d\d\smm/);
    await button(/^side by side$/i).click();
  }, 170_000);

  it('moves the lamp with the keyboard and takes it back by undo', async () => {
    const caption = () => page.locator('.choices-line i').textContent();
    expect(await caption()).toBe('Light from 315°, 25° above the face');
    const before = await page.locator('.plate').screenshot();
    await page.getByRole('slider', { name: /lamp/i }).first().focus();
    for (let i = 0; i < 6; i++) await page.keyboard.press('Shift+ArrowRight');
    expect(await caption()).toBe('Light from 45°, 25° above the face');
    const unchanged = async () => before.equals(await page.locator('.plate').screenshot());
    await expect.poll(unchanged, { timeout: 20_000 }).toBe(false);
    await page.keyboard.press('Control+z');
    expect(await caption()).toBe('Light from 315°, 25° above the face');
    await page.keyboard.press('Control+y');
    expect(await caption()).toBe('Light from 45°, 25° above the face');
  }, 170_000);

  it('draws a section over both seals', async () => {
    await button(/compare$/i).click();
    await button(/draw a section/i).click();
    const box = await page.locator('.plate').boundingBox();
    if (!box) throw new Error('no plate');
    await page.mouse.move(box.x + box.width * 0.15, box.y + box.height * 0.45);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.3, box.y + box.height * 0.55, { steps: 4 });
    await page.mouse.up();
    await page.waitForSelector('.profile path.profile-a[d^="M"]');
    expect(await page.locator('.profile path.profile-b').getAttribute('d')).toMatch(/^M/);
    expect(await page.locator('.section-line').count()).toBe(2);
  }, 170_000);
}

const sentence = async (): Promise<string> => {
  await button(/finding$/i).click();
  const words = (await page.locator('.finding-sentence').textContent()) ?? '';
  await button(/show$/i).click();
  return words;
};

/** What the page hands on, and what it does not take. */
export function handedOn(): void {
  it('saves one open file that opens again with the same finding, as stated by the file', async () => {
    await button(/show$/i).click();
    const path = await saved(() => button(/save as GLB/i).click());
    const bytes = readFileSync(path);
    expect(bytes.toString('latin1', 0, 4)).toBe('glTF');
    const other = await browser.newContext({ viewport: small });
    const second = await newPage(other);
    await second.goto(`${served.url}#empty`);
    await second.getByRole('button', { name: /bring in$/i }).click();
    await second.getByLabel('Scan files').setInputFiles(path);
    await second.waitForSelector('.caption .legends p');
    await second
      .getByRole('button', { name: /finding$/i })
      .first()
      .click();
    await second.waitForSelector('.stated-sentence');
    // What a file says is quoted, and never stands where the tool's own finding stands.
    expect(await second.locator('.stated-sentence').textContent()).toBe(await sentence());
    expect(await second.locator('.finding-sentence').count()).toBe(0);
    // Its grounds come along, in the file's words.
    const titles = second.locator('.ground-item .ground-title');
    expect(await titles.count()).toBeGreaterThanOrEqual(3);
    await second.locator('.ground-item summary').first().click();
    expect(await second.locator('.ground-told').first().textContent()).toMatch(/against it/i);
    await other.close();
  }, 170_000);

  it('shows the seminar page from disk without a network', async () => {
    await page.getByLabel('Question').fill('Which came first?');
    await page.getByLabel('What is seen').fill('The cut is missing on the wax.');
    await page.getByLabel(/reveal the finding/).check();
    await button(/keep this view/i).click();
    const path = await saved(() => button(/save as one page/i).click());
    const other = await browser.newContext({ viewport: { width: 1280, height: 800 }, offline: true });
    const second = await newPage(other);
    await second.goto(`file://${path}`);
    await second.waitForSelector('.caption .legends p');
    await second.getByRole('button', { name: /show$/i }).click();
    await second.getByRole('button', { name: /begin the seminar/i }).click();
    expect(await second.locator('.question').textContent()).toBe('Which came first?');
    expect(await second.locator('.revealed').count()).toBe(0);
    await second.keyboard.press('PageDown');
    expect(await second.locator('.evidence-words').textContent()).toBe('The cut is missing on the wax.');
    await second.keyboard.press('PageDown');
    expect(await second.locator('.revealed').textContent()).toBe(`As the saved file states: ${await sentence()}`);
    await other.close();
  }, 170_000);

  it('saves figures and the report', async () => {
    await button(/show$/i).click();
    const svg = readFileSync(await saved(() => button(/save as SVG/i).click()), 'utf8');
    expect(svg).toContain(' mm</text>');
    expect(svg).toMatch(/Light from \d+°/);
    const png = readFileSync(await saved(() => button(/save as PNG/i).click()));
    expect(png.subarray(1, 4).toString('latin1')).toBe('PNG');
    const report = readFileSync(await saved(() => button(/save the report/i).click()), 'utf8');
    expect(report).toContain('<html');
    const record = JSON.parse(readFileSync(await saved(() => button(/save the record/i).click()), 'utf8'));
    expect(record.schema).toBe('ectype/comparison/2');
  }, 170_000);

  it('answers a bad file with one sentence that names it, and nothing makes room for it', async () => {
    await button(/bring in$/i).click();
    const before = await page.locator('.card').count();
    const legends = await page.locator('.caption .legends').textContent();
    const give = (name: string, bytes: Buffer) =>
      page.getByLabel('Scan files').setInputFiles({ name, mimeType: 'application/octet-stream', buffer: bytes });
    await give('empty.ply', Buffer.alloc(0));
    await page.waitForSelector('.notice');
    expect(await page.locator('.notice').textContent()).toContain('empty.ply');
    expect(await page.locator('.card').count()).toBe(before);
    await give('broken.ply', Buffer.from('ply\nformat ascii 1.0\nelement vertex 3\n'));
    await page.waitForSelector('.card [role="alert"]');
    const words = (await page.locator('.card [role="alert"]').textContent()) ?? '';
    expect(words).toContain('broken.ply');
    expect(words).not.toContain('--');
    expect(await page.locator('.card').count()).toBe(before + 1);
    expect(await page.locator('.caption .legends').textContent()).toBe(legends);
    await page.keyboard.press('Control+z');
    expect(await page.locator('.card').count()).toBe(before);
  }, 60_000);

  it('asks only its own server and breaks no policy', () => {
    expect(served.asked.length).toBeGreaterThan(3);
    expect(existsSync(join(appFolder, 'index.html'))).toBe(true);
    expect(readFileSync(join(appFolder, 'index.html'), 'utf8')).toContain('Content-Security-Policy');
    expect(troubles).toEqual([]);
  });
}
