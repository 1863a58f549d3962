import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { ectype } from '../../cli/run.ts';
import { openingPair } from '../openingPair.ts';
import { appFolder } from '../served.ts';
import { button, judged, margin, page, saved } from './desk.ts';

const places = async (): Promise<string> =>
  /\d+ of \d+ places[^.]*\.[^.]*\.\d+ mm[^.]*\./.exec(await margin())?.[0] ?? '';
const mark = (side: 'a' | 'b', index: number) => page.locator(`[data-landmark="${side} ${index}"]`);
const count = (): Promise<number> => page.locator('[data-landmark^="a "]').count();

async function middleOf(side: 'a' | 'b', index: number): Promise<[number, number]> {
  const box = await mark(side, index).locator('.place-reach').boundingBox();
  if (!box) throw new Error('no landmark');
  return [box.x + box.width / 2, box.y + box.height / 2];
}

/** A place on the first seal with no landmark within a finger's reach, 22 pixels. */
async function emptyPlace(): Promise<[number, number]> {
  const boxes = await page
    .locator('[data-landmark^="a "] .place-reach')
    .evaluateAll((all) =>
      all.map((one) => one.getBoundingClientRect()).map(({ x, y, width }) => [x + width / 2, y + width / 2]),
    );
  const [x, y] = [boxes.map(([u]) => u), boxes.map(([, v]) => v)].map(
    (all) => (Math.min(...all) + Math.max(...all)) / 2,
  );
  for (let k = 0; k < 400; k++) {
    const at: [number, number] = [x + 0.4 * k * Math.cos(k), y + 0.4 * k * Math.sin(k)];
    if (boxes.every(([u, v]) => Math.hypot(u - at[0], v - at[1]) > 26)) return at;
  }
  throw new Error('landmarks everywhere');
}

const fileNow = async (): Promise<[number, number][]> =>
  JSON.parse(readFileSync(await saved(() => button(/save them as a file/i).click()), 'utf8')).landmarks;

let found: [number, number][] = [];
let wordsFound = '';
/** The landmarks as they were put by hand, and how many they are. */
let file = { path: '', count: 0 };

/** Landmarks put right by hand. */
export function corrected(): void {
  it('are shown on both seals, as many as were found', async () => {
    await button(/compare$/i).click();
    await judged();
    wordsFound = await places();
    await page.keyboard.press('k');
    found = await fileNow();
    expect(found.length).toBe(Number(/of (\d+) places/.exec(wordsFound)?.[1]));
    expect(await page.locator('[data-landmark^="b "]').count()).toBe(found.length);
    expect(await count()).toBe(found.length);
  }, 120_000);

  it('move with the mouse by what the mouse moved, on the reference’s face', async () => {
    const [x, y] = await middleOf('a', 5);
    const bar = await page.locator('.scale-bar path').boundingBox();
    const barMm = Number.parseFloat((await page.locator('.scale-bar text').textContent()) ?? '');
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 24, y + 10, { steps: 5 });
    await page.mouse.up();
    const now = await fileNow();
    const perPx = barMm / (bar?.width ?? Number.NaN);
    // The matrix lies turned over on the plate: right there is left on its face.
    expect(now[5][0] - found[5][0]).toBeCloseTo(-24 * perPx, 0);
    expect(now[5][1] - found[5][1]).toBeCloseTo(-10 * perPx, 0);
    expect(now.filter((_, i) => i !== 5)).toEqual(found.filter((_, i) => i !== 5));
  }, 120_000);

  it('move with a finger on the other seal, and are added where it taps', async () => {
    const before = await fileNow();
    const [x, y] = await middleOf('b', 9);
    const touch = await page.context().newCDPSession(page);
    const send = (type: string, points: { x: number; y: number }[]) =>
      touch.send('Input.dispatchTouchEvent', { type: type as 'touchStart', touchPoints: points });
    await send('touchStart', [{ x, y }]);
    for (let i = 1; i <= 4; i++) await send('touchMove', [{ x: x - 5 * i, y: y - 3 * i }]);
    await send('touchEnd', []);
    const moved = await fileNow();
    expect(moved[9][0]).toBeGreaterThan(before[9][0] + 0.5);
    expect(moved[9][1]).toBeGreaterThan(before[9][1] + 0.3);
    const [tapX, tapY] = await emptyPlace();
    await page.touchscreen.tap(tapX, tapY);
    expect((await fileNow()).length).toBe(before.length + 1);
  }, 120_000);

  it('move, follow one another and are removed by keys', async () => {
    const before = await fileNow();
    await mark('a', 2).focus();
    await page.keyboard.press('PageDown');
    await page.keyboard.press('Shift+ArrowUp');
    await page.keyboard.press('ArrowUp');
    const moved = await fileNow();
    expect(moved[3][1] - before[3][1]).toBeCloseTo(1.1, 2);
    expect(moved[3][0]).toBeCloseTo(before[3][0], 2);
    await mark('a', 4).focus();
    await page.keyboard.press('Delete');
    const less = await fileNow();
    expect(less.length).toBe(before.length - 1);
    expect(less).toEqual(moved.filter((_, i) => i !== 4));
  }, 120_000);

  it('are saved as a file', async () => {
    await judged();
    const path = await saved(() => button(/save them as a file/i).click());
    file = { path, count: JSON.parse(readFileSync(path, 'utf8')).landmarks.length };
    await page.keyboard.press('k');
  }, 120_000);
}

/** The same after the page was opened anew. */
export function asCorrected(): void {
  it('give the numbers of the command line with the file that was saved before the reload', async () => {
    await button(/compare$/i).click();
    expect(await margin()).toContain('put by hand');
    const after = await places();
    expect(after).not.toBe(wordsFound);
    await button(/show$/i).click();
    const record = JSON.parse(readFileSync(await saved(() => button(/save the record/i).click()), 'utf8'));
    const { reference, subject } = openingPair();
    const state = (name: 'kind' | 'material'): string =>
      `reference=${reference.stated[name]},subject=${subject.stated[name]}`;
    const path = join(mkdtempSync(join(tmpdir(), 'ectype-landmarks-')), 'command-line.json');
    const ran = ectype(
      ...['compare', join(appFolder, 'samples', reference.file), join(appFolder, 'samples', subject.file)],
      ...['--kind', state('kind'), '--material', state('material'), '--landmarks', file.path, '--json', path],
    );
    expect(ran.stderr).not.toMatch(/^ectype:/m);
    const theirs = JSON.parse(readFileSync(path, 'utf8'));
    expect(record.judge.landmarks).toEqual(theirs.judge.landmarks);
    expect(record.judge.landmarks.found).toBe(file.count);
    expect(record.judge.score).toBe(theirs.judge.score);
    expect(record.judge.limits).toEqual(theirs.judge.limits);
    expect(record.judge.limits[0].words).toContain(`${file.count} landmarks were put by hand`);
    expect(after).toContain(`${record.judge.landmarks.seen} of ${file.count}`);
  }, 300_000);

  it('are in the saved file, and go back to those found in one word', async () => {
    const path = await saved(() => button(/save as GLB/i).click());
    expect(readFileSync(path).includes('"landmarks":[[')).toBe(true);
    await button(/compare$/i).click();
    await button(/leave them to the search again/i).click();
    await judged();
    expect(await places()).toBe(wordsFound);
    await page.keyboard.press('Control+z');
    await judged();
    expect(await places()).not.toBe(wordsFound);
    await page.keyboard.press('Control+y');
    await judged();
    expect(await places()).toBe(wordsFound);
  }, 240_000);
}

/** Wear on the plate. */
export function worn(): void {
  it('is drawn only as long as the hand is on its zone, until it is asked for', async () => {
    expect(await page.locator('.worn').count()).toBe(0);
    await page.getByRole('button', { name: /^border$/ }).hover();
    expect(await page.locator('.worn').count()).toBeGreaterThan(0);
    expect(await page.locator('.wear-zone').count()).toBe(2);
    await page.mouse.move(5, 5);
    await page.waitForFunction(() => document.querySelectorAll('.worn').length === 0);
    await button(/draw the states on the plate/i).click();
    expect(await page.locator('.worn').count()).toBe(await page.locator('.wear-key li').count());
  }, 120_000);

  it('says the state in a word, and marks its line in the list, under the hand and under the keyboard', async () => {
    await page.locator('.worn').first().focus();
    const said = (await page.locator('.worn text').textContent()) ?? '';
    expect(said).toMatch(/^(legend|field|motif|border): \w/);
    expect(await page.locator('.wear-key .under').textContent()).toContain(said);
    expect(await page.locator('.wear-table tr.under').textContent()).toContain(said.split(':')[0]);
    // Every state has a hatching of its own.
    const fills = await page
      .locator('.wear-key rect')
      .evaluateAll((all) => all.map((one) => getComputedStyle(one).fill));
    const states = await page.locator('.wear-key li').allTextContents();
    expect(new Set(fills).size).toBe(new Set(states.map((one) => one.replace(/^.*: |, .*$/g, ''))).size);
    await page.keyboard.press('Enter');
    expect(await page.locator('.wear-zone').count()).toBe(2);
    await page.keyboard.press('Control+z');
  }, 120_000);
}
