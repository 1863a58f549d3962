import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { walked } from './demonstration/access.ts';
import { countedAgain, helped, leftOut } from './demonstration/byHand.ts';
import { button, closeDesk, judged, openDesk, page } from './demonstration/desk.ts';
import { handedOn, opened } from './demonstration/job.ts';
import { asCorrected, corrected, worn } from './demonstration/landmarks.ts';
import { kept } from './waits.ts';

// One page for all, and one reload: a fresh page measures the demonstration anew, which costs as much as all that follows on it.
beforeAll(openDesk, 180_000);
afterAll(closeDesk, 60_000);

describe('the whole job in the browser', opened);
describe('the app is open to everybody', walked);
describe('a fit that is helped by hand', helped);
describe('landmarks put right by hand', corrected);
describe('a region that is left out', leftOut);

describe('a reload', () => {
  it('keeps everything', async () => {
    await button(/finding$/i).click();
    await page.getByLabel('Your conclusion').fill('Made from this matrix before it was struck through.');
    await page.getByLabel(/^signed/).fill('A. Tester');
    await button(/sign and date/i).click();
    // A mark that was looked at held the lamp for its time.
    await page.getByRole('slider', { name: /lamp/i }).first().focus();
    await page.keyboard.press('Shift+ArrowLeft');
    await kept(page);
    const light = await page.locator('.choices-line i').textContent();
    await page.reload({ timeout: 60_000 });
    await page.waitForFunction(
      () => !document.querySelector('.working') && document.querySelector('.finding-sentence'),
      undefined,
      { timeout: 90_000 },
    );
    await judged();
    expect(await page.getByLabel('Your conclusion').inputValue()).toContain('struck through');
    expect(await page.locator('.choices-line i').textContent()).toBe(light);
  }, 170_000);
});

describe('a region that was left out', countedAgain);
describe('landmarks that were put by hand', asCorrected);
describe('wear on the plate', worn);
describe('what the page hands on', handedOn);
