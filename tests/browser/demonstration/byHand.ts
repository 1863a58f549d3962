import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { button, judged, margin, page, saved, unfoldFinding } from './desk.ts';

const number = (words: string, before: RegExp): number => Number(before.exec(words.replaceAll('−', '-'))?.[1]);
const scale = async (): Promise<number> => number(await margin(), /one scale(\d\.\d+)/);
const median = async (): Promise<string> =>
  /Median [−\d.]+ mm; half of them within [\d.]+/.exec(await margin())?.[0] ?? '';

/** A fit that is helped by hand. */
export function helped(): void {
  it('begins at three places clicked on both seals, and ends where the search ended', async () => {
    await button(/fit$/i).click();
    const before = await scale();
    await page.keyboard.press('p');
    const box = await page.locator('.plate').boundingBox();
    if (!box) throw new Error('no plate');
    // Both panes show the same place at the same spot of each; a few pixels are some tenths of a millimetre.
    for (const [u, v] of [
      [0.2, 0.35],
      [0.3, 0.6],
      [0.19, 0.62],
    ]) {
      await page.mouse.click(box.x + box.width * u, box.y + box.height * v);
      await page.mouse.click(box.x + box.width * (u + 0.5) + 3, box.y + box.height * v - 3);
    }
    expect(await page.locator('.place').count()).toBe(6);
    expect(await page.locator('.pairs li').count()).toBe(3);
    await button(/fit from these places/i).click();
    await judged();
    expect(await margin()).toContain('began at 3 pairs of places');
    expect(await scale()).toBeCloseTo(before, 3);
    expect(await margin()).not.toContain('No fit was found');
  }, 240_000);

  it('takes places by the keyboard alone, and refuses what says nothing, in words', async () => {
    await page.locator('.place').first().focus();
    const field = page.getByLabel('Place 1 on a, mm across');
    const before = Number.parseFloat((await field.inputValue()).replace('−', '-'));
    await page.keyboard.press('Shift+ArrowRight');
    const moved = Number.parseFloat((await page.getByLabel('Place 1 on a, mm across').inputValue()).replace('−', '-'));
    expect(Math.abs(moved - before)).toBeCloseTo(1, 1);
    for (let left = 3; left > 0; left--) await button(/remove pair/i).click();
    await button(/add a pair by numbers/i).click();
    await button(/add a pair by numbers/i).click();
    await button(/fit from these places/i).click();
    await judged();
    expect(await margin()).toContain('too near to one another');
    await button(/leave it to the search/i).click();
    await judged();
    expect(await margin()).not.toContain('No fit was found');
    for (let left = 2; left > 0; left--) await button(/remove pair/i).click();
    await page.keyboard.press('Escape');
    expect(await page.locator('.place').count()).toBe(0);
  }, 240_000);
}

let before = '';

/** A region that is left out. */
export function leftOut(): void {
  it('changes the numbers, is drawn, listed with a reason, and stands among the limits', async () => {
    await button(/compare$/i).click();
    before = await median();
    expect(before).not.toBe('');
    await button(/round region by numbers/i).click();
    await page
      .getByLabel(/mm across/)
      .last()
      .fill('14');
    await button(/^mark it$/i).click();
    await page.locator('.mark-name').last().click();
    if ((await page.getByRole('button', { name: /leave it out/i }).count()) === 0)
      await page.locator('.mark-name').last().click();
    await button(/leave it out/i).click();
    await judged();
    expect(await median()).not.toBe(before);
    expect(await margin()).toContain('Left out of everything measured');
    const why = page.getByLabel(/^because/);
    await why.fill('repair');
    await why.blur();
    await judged();
    expect(await page.locator('.outline.left-out').count()).toBeGreaterThan(0);
    await unfoldFinding();
    await page.keyboard.press('Escape');
    expect(await margin()).toMatch(/Left out of both faces by hand: repair, 15\d\.\d mm²/);
  }, 240_000);
}

/** The same after the page was opened anew, and counted again. */
export function countedAgain(): void {
  it('is kept in the record, too', async () => {
    await button(/show$/i).click();
    const path = await saved(() => button(/save the record/i).click());
    const { excluded } = JSON.parse(readFileSync(path, 'utf8'));
    expect(excluded).toMatchObject([{ why: 'repair' }]);
    expect(excluded[0].areaMm2).toBeCloseTo(Math.PI * 49, -1);
  }, 240_000);

  it('gives the old numbers back when it is counted again', async () => {
    await button(/compare$/i).click();
    expect(await median()).not.toBe(before);
    await button(/count it again/i).click();
    await judged();
    expect(await median()).toBe(before);
  }, 240_000);
}
