import { describe, expect, it } from 'vitest';
import { differenceLines, lineMarkDefaults } from '../../../../src/core/condition/marks/lines/lines.ts';
import { lossField } from '../../../../src/core/condition/relief/loss.ts';
import { designHeight, pair, type Surface } from '../../pressedSeal.ts';

/** The seal broken off right of a way, so many mm deep. */
const brokenAt =
  (x0: number, deep: number): Surface =>
  (x, y) =>
    x > x0 ? -deep : designHeight(x, y);

/** A ridge a quarter of a millimetre high along the same way. */
const ridgeAt =
  (x0: number): Surface =>
  (x, y) =>
    designHeight(x, y) + 0.25 * Math.exp(-(((x - x0) / 0.3) ** 2));

function lines(subject: Surface, reference: Surface, options = lineMarkDefaults) {
  const seen = pair(subject, reference);
  return differenceLines(seen, lossField(seen), undefined, options).map(({ carriedBy }) => carriedBy);
}

describe('differenceLines', () => {
  it('reads no ridge between the broken edges of two faces: the one that keeps more has a step there', () => {
    const [kept, broken] = [brokenAt(5, 2), brokenAt(4, 1)];
    const open = { ...lineMarkDefaults, otherShare: 1 };
    expect(lines(kept, broken, { ...open, leastOverHigher: Number.NEGATIVE_INFINITY })).toContain('subject');
    expect(lines(kept, broken, open)).toEqual([]);
  });

  it('reads a ridge that stands over both its sides, on whichever face has it', () => {
    expect(lines(ridgeAt(4.5), designHeight)).toEqual(['subject']);
    expect(lines(designHeight, ridgeAt(4.5))).toEqual(['reference']);
  });

  it('reads no groove between two forms that were rubbed down on the other face: what differs is its sides', () => {
    const bars =
      (high: number): Surface =>
      (x, y) =>
        Math.max(designHeight(x, y), x > -9 && x < -1 && Math.abs(Math.abs(y - 7) - 1.2) < 0.7 ? high : 0);
    expect(lines(bars(0.1), bars(0.6))).toEqual([]);
  });
});
