import { describe, expect, it } from 'vitest';
import { sectionLine } from '../../src/core/report/index.ts';
import { comparisonFixture, inside } from './fixture.ts';

const comparison = comparisonFixture({ pitch: 0.3 });
const difference = comparison.difference as NonNullable<typeof comparison.difference>;
const { judgement } = comparison;
const { face } = comparison.reference;
const across = sectionLine(face, judgement.damage, difference);
const level = sectionLine(face, [], difference);

describe('the line of the section', () => {
  it('crosses the largest mark at right angles, through its middle', () => {
    const [x0, y0, x1, y1] = across;
    const length = Math.hypot(x1 - x0, y1 - y0);
    // The cut runs along (0.6, −0.8) as the impression shows it, through (3.2, 2.4); the face frame is turned over.
    const along = ((x1 - x0) * -0.6 + (y1 - y0) * -0.8) / length;
    expect(Math.abs(along)).toBeLessThan(0.02);
    const offset = ((-3.2 - x0) * (y1 - y0) - (2.4 - y0) * (x1 - x0)) / length;
    expect(Math.abs(offset)).toBeLessThan(0.1);
  });

  it('runs from rim to rim, left to right as the impression shows it', () => {
    for (const [x0, y0, x1, y1] of [across, level]) {
      for (const [x, y] of [
        [x0, y0],
        [x1, y1],
      ] as const)
        expect(Math.abs(inside(x, y))).toBeLessThan(0.15);
      expect(-x1).toBeGreaterThan(-x0);
    }
  });

  it('goes level through the greatest difference where there is no mark', () => {
    const [x0, y0, x1, y1] = level;
    expect(y1).toBeCloseTo(y0, 9);
    expect(Math.min(x0, x1)).toBeLessThan(0);
    // The chip at (−13, −11) of the impression is lost to 0.5 mm over 4 mm.
    expect(Math.abs(y0 + 11)).toBeLessThan(4.5);
  });
});
