import { describe, expect, it } from 'vitest';
import { keptAsHigh } from '../../../src/core/condition/marks/keptAsHigh.ts';
import { lossField } from '../../../src/core/condition/relief/loss.ts';
import { cellsWhere, designHeight, pair, type Surface } from '../pressedSeal.ts';

/** The seal with a rib in its field, from (−8, 7) to (−2, 7), and another two millimetres below; heights over the ground, mm. */
const ribs =
  (one: number, other: number): Surface =>
  (x, y) => {
    const rib = (at: number, high: number): number => (Math.abs(y - at) < 0.5 && x > -8 && x < -2 ? high : 0);
    return Math.max(designHeight(x, y), rib(7, one), rib(5, other));
  };

function kept(reference: Surface, subject: Surface, carriedBy: 'reference' | 'subject' = 'reference'): number {
  const relief = pair(subject, reference);
  const own = cellsWhere(relief.reference, (x, y) => Math.abs(y - 7) < 0.3 && x > -7.5 && x < -2.5);
  const cells = [...own.keys()].filter((i) => own[i] === 1);
  return keptAsHigh(relief, lossField(relief), { cells, carriedBy });
}

describe('what the other face keeps of what stands as high as a mark', () => {
  it('is next to nothing where all was pressed down to one level, and nearly all where the mark alone is missing', () => {
    expect(kept(ribs(0.6, 0.6), ribs(0.3, 0.3))).toBeLessThan(0.1);
    expect(kept(ribs(0.6, 0.6), ribs(0.3, 0.6))).toBeGreaterThan(0.9);
  });

  it('counts higher forms up to the mark alone: what took their tops says nothing of what is low', () => {
    expect(kept(ribs(0.1, 0.6), ribs(0, 0.3))).toBeGreaterThan(0.9);
  });

  it('is the same with the faces exchanged', () => {
    expect(kept(ribs(0.3, 0.3), ribs(0.6, 0.6), 'subject')).toBeLessThan(0.1);
    expect(kept(ribs(0.3, 0.6), ribs(0.6, 0.6), 'subject')).toBeGreaterThan(0.9);
  });

  it('is all where nothing about it stands as high, and nothing where the carrier does not stand higher', () => {
    expect(kept(ribs(2, 0.3), ribs(0.3, 0.3))).toBe(1);
    expect(kept(ribs(0.3, 0.3), ribs(0.6, 0.3))).toBe(0);
  });
});
