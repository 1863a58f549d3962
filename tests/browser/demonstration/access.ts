import { expect, it } from 'vitest';
import { nothingInBoth, violationsInBoth } from '../axe.ts';
import { walkIn } from '../waits.ts';
import { button, page, unfoldFinding } from './desk.ts';

const steps = ['bring in', 'face', 'fit', 'compare', 'finding', 'read', 'show'];

/** The page as it stands, in both grounds. */
const clean = async (where: string): Promise<void> =>
  expect(await violationsInBoth(page), where).toEqual(nothingInBoth);

/** From the front door over every step; at its end the page stands as before. */
export function walked(): void {
  it('has nothing for axe to find, at the front door and on every step, in light and dark', async () => {
    await button(/compare$/i).click();
    await button(/back to the three questions/i).click();
    await page.waitForSelector('.at-door .caption p');
    await clean('the front door');
    await walkIn(page);
    for (const step of steps) {
      if (step === 'finding') await unfoldFinding();
      else await button(new RegExp(`${step}$`, 'i')).click();
      await clean(step);
    }
    await page.keyboard.press('k');
    await page.locator('.landmark').first().focus();
    await clean('landmarks');
    await page.keyboard.press('k');
    await button(/draw the states/i).click();
    expect(await page.locator('.worn').count()).toBeGreaterThan(0);
    await clean('wear');
    await button(/hide the states/i).click();
    await page.emulateMedia({ colorScheme: null });
  }, 150_000);
}
