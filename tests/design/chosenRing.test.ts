import { describe, expect, it } from 'vitest';
import { curveOf, idealOutline } from '../../src/core/design/legend/baseCurve.ts';
import { chosenRing, type Ring } from '../../src/core/design/legend/chosenRing.ts';
import { bandDefaults } from '../../src/core/design/legend/findBands.ts';
import type { RingSigns } from '../../src/core/design/legend/ringSigns.ts';

const place = { cx: 0, cy: 0, turnDeg: 0, a: 15, b: 15 };
const curve = curveOf(idealOutline('round', place, 720));

/** Letters between two depths, a gap of 0.3 mm beside them on both sides, behind which lies a border line or none. */
const ring = (from: number, to: number, worth: number, lines: { outer?: number; inner?: number } = {}): Ring => ({
  aligned: { shape: 'round', place, curve, explained: 0.2 },
  band: {
    outerMm: from - 0.3,
    innerMm: to + 0.3,
    insideMm: to + 0.3,
    lettersOuterMm: from,
    lettersInnerMm: to,
    outerLine: lines.outer ?? 0,
    innerLine: lines.inner ?? 0,
    edges: 0,
    score: 0,
  },
  signs: {} as RingSigns,
  worth,
});
const chosen = (...rings: Ring[]): Ring => chosenRing(rings, bandDefaults);

describe('the ring that is chosen', () => {
  it('is the one of the greatest worth, in whichever order they come', () => {
    const rings = [ring(2, 5, 9), ring(7, 9, 11), ring(3, 4, 10)];
    expect(chosen(...rings)).toBe(rings[1]);
    expect(chosen(...rings.reverse())).toBe(rings[1]);
  });

  it('ends at a border line where another nearly as worthy does, inside or outside', () => {
    for (const line of [{ inner: 0.7 }, { outer: 0.7 }]) {
      const bounded = ring(3, 5.5, 10.2, line);
      const over = line.inner ? ring(3, 6.4, 11) : ring(2.1, 5.5, 11);
      expect(chosen(over, bounded)).toBe(bounded);
      expect(chosen(over, { ...bounded, worth: 9.9 })).toBe(over);
      const other = line.inner ? ring(2.1, 5.5, 11) : ring(3, 6.4, 11);
      expect(chosen(other, bounded)).toBe(other);
    }
  });

  it('takes tall letters whole, but no border line along', () => {
    const low = ring(3, 5.5, 11);
    const tall = ring(3, 6.4, 10.2);
    expect(chosen(low, tall)).toBe(tall);
    const bounded = ring(3, 5.5, 11, { inner: 0.7 });
    expect(chosen(bounded, tall)).toBe(bounded);
  });
});
