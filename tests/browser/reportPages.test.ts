import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeReport } from '../../src/core/report/index.ts';
import { comparisonFixture, paradataFixture, sectionFixture } from '../report/fixture.ts';
import { closePages, sharedChromium } from './chromium.ts';

/** Printable height of a page, mm: the sheet less the margins that the report sets (17 and 18 mm). */
const papers = { A4: { width: 180, height: 262 }, letter: { width: 185.9, height: 244.4 } };
const px = (mm: number): number => Math.floor((mm * 96) / 25.4);

const pair = { pitch: 0.4 };
const options = { across: 200, section: sectionFixture() };
const reports = {
  'with a fit': makeReport(comparisonFixture(pair), paradataFixture, options).html,
  'without one': makeReport(comparisonFixture({ ...pair, found: false }), paradataFixture, options).html,
  'of two impressions': makeReport(comparisonFixture({ ...pair, bothPositive: true }), paradataFixture, options).html,
};

describe('a printed report', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await sharedChromium();
  }, 60_000);
  afterAll(() => closePages(browser));

  for (const [name, html] of Object.entries(reports))
    it(`${name} has answer and grounds on one page each, also as a PDF, and at most 900 words before the annex`, async () => {
      const page = await browser.newPage();
      await page.emulateMedia({ media: 'print' });
      for (const [paper, { width, height }] of Object.entries(papers)) {
        await page.setViewportSize({ width: px(width), height: px(height) });
        await page.setContent(html);
        const sheets = await page.$$eval('.sheet', (all) =>
          all.map((sheet) => ({
            height: sheet.getBoundingClientRect().height,
            text: (sheet as HTMLElement).innerText,
          })),
        );
        expect(sheets.length).toBe(2);
        for (const sheet of sheets) expect(sheet.height).toBeLessThanOrEqual(px(height));
        expect(sheets[0].text).toContain('faithful');
        expect(
          sheets
            .map(({ text }) => text)
            .join(' ')
            .split(/\s+/).length,
        ).toBeLessThanOrEqual(900);
        expect(await page.$$eval('.sheet:first-of-type svg', (all) => all.length)).toBe(1);
        // And on paper: finding and seals are one page of the PDF, with the grounds two.
        for (const kept of [2, 1]) {
          await page.evaluate((most) => {
            const parts = [...document.querySelectorAll('body > *, main > *')].filter((one) => one.tagName !== 'MAIN');
            for (const part of parts)
              if (![...document.querySelectorAll('.sheet')].slice(0, most).includes(part)) part.remove();
          }, kept);
          const pdf = (await page.pdf({ format: paper })).toString('latin1');
          expect(pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length).toBe(kept);
        }
      }
      await page.close();
    }, 60_000);
});
