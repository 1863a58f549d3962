import { describe, expect, it } from 'vitest';
import { lineSection } from '../../src/core/condition/marks/lines/lineSection.ts';
import { lineSectionsFigure } from '../../src/core/report/figures/lineSections.ts';
import { makeReport } from '../../src/core/report/index.ts';
import { lineWords } from '../../src/core/report/words/index.ts';
import { comparisonFixture, paradataFixture } from './fixture.ts';

/** A ridge 0.3 mm high and 0.8 mm wide along x. */
const grid = { width: 200, height: 40, pitch: 0.1, left: -10, top: 2 };
const section = lineSection(
  { own: (_, y) => Math.max(0, 0.3 * (1 - Math.abs(y) / 0.4)), design: () => 0, pitchMm: 0.05 },
  {
    cells: Array.from({ length: 160 }, (_, k) => 20 * grid.width + 20 + k),
    lengthMm: 16,
    strengthMm: 0.3,
    x: 0,
    y: 0,
    ux: 1,
    uy: 0,
    strayMm: 0,
  },
  grid,
  1,
  0.4,
);

const comparison = comparisonFixture({ pitch: 0.6 });
const { damage } = comparison.judgement;
const withSection = damage.map((mark, k) => (k === 0 ? { ...mark, section } : mark));

describe('the sections of the line marks', () => {
  it('are no figure where no mark has one', () => {
    expect(lineSectionsFigure(damage)).toBeNull();
  });

  it('are drawn at one true scale, raised marks upward, within the figure', () => {
    const figure = lineSectionsFigure(withSection);
    if (!figure) throw new Error('no figure');
    const curves = figure.drawing.marks.flatMap((mark) =>
      mark.kind === 'line' && mark.tone === 'ink' && mark.width > 1 ? [Array.from(mark.points)] : [],
    );
    expect(curves).toHaveLength(1);
    const x = curves[0].filter((_, k) => k % 2 === 0);
    const y = curves[0].filter((_, k) => k % 2 === 1);
    const [low, high] = [Math.max(...y), Math.min(...y)];
    const half = x.filter((_, k) => y[k] < (low + high) / 2);
    // A triangle is half as wide at half its height: 0.4 mm against 0.3 mm, to a step of the section.
    expect(Math.abs((half[half.length - 1] - half[0]) / (low - high) - 0.4 / 0.3)).toBeLessThan(0.2);
    expect(Math.max(...x)).toBeLessThanOrEqual(figure.drawing.width);
    expect(low).toBeLessThan(figure.drawing.height);
    expect(figure.caption).toMatch(/M1 0\.\d\d × 0\.\d\d mm/);
  });

  it('stand in the record, the page, the table and a file of their own', () => {
    const { record, html, files } = makeReport(
      { ...comparison, judgement: { ...comparison.judgement, damage: withSection } },
      paradataFixture,
      { across: 80, pngWidth: 200 },
    );
    expect(record.damage[0].section).toMatchObject({
      verdict: section.verdict,
      words: lineWords(section),
      ridge: true,
    });
    expect(record.damage[1].section).toBeUndefined();
    expect(html).toContain(lineWords(section));
    expect(files.get('marks.csv')).toContain(lineWords(section).split(',')[0]);
    expect([...files.keys()]).toContain('marks.svg');
    expect(JSON.stringify(record.damage[0].section)).not.toContain('null,null');
  });
});
