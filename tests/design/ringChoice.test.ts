import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { confidenceOf, ringConfidence, ringWorths, worthOf } from '../../src/core/design/legend/ringChoice.ts';
import { ringSignNames } from '../../src/core/design/legend/ringSigns.ts';
import { chosenRings, facesOf, learnChoice } from '../bench/bandRows/learn.ts';
import { type RingRow, ringRows } from '../bench/bandRows/rows.ts';

const rows = ringRows(readFileSync(new URL('../bench/bandRows/rows.csv', import.meta.url), 'utf8'));
const of = (generator: string): RingRow[] => rows.filter(({ face }) => face.startsWith(generator));

describe('the choice of a ring', () => {
  it('has the coefficients that its rows give', () => {
    const { worths, confidence } = learnChoice(rows);
    for (const name of ringSignNames) expect(ringWorths[name]).toBeCloseTo(worths[name], 2);
    expect(ringConfidence.half).toBeCloseTo(confidence.half, 2);
    expect(ringConfidence.slope).toBeCloseTo(confidence.slope, 2);
  });

  // What is learned from one generator's faces alone holds on the other's.
  it.each([
    ['first', 'second', 0.8],
    ['second', 'first', 0.95],
  ])('learned from the %s generator, finds the ring among those that the %s offers', (from, to, least) => {
    const { worths } = learnChoice(of(from));
    const offered = [...facesOf(of(to)).values()].filter((rings) => rings.some(({ right }) => right)).length;
    const found = chosenRings(of(to), worths).filter(({ right }) => right).length;
    expect(found / offered).toBeGreaterThan(least);
  });

  it('is as sure as it was right: of the rings told with a confidence, about that share', () => {
    const chosen = chosenRings(rows, ringWorths);
    for (const [from, to] of [
      [0, 0.5],
      [0.5, 0.9],
      [0.9, 1],
    ]) {
      const some = chosen.map((ring) => ({ ...ring, sure: confidenceOf(worthOf(ring.signs)) }));
      const told = some.filter(({ sure }) => sure >= from && sure <= to);
      const mean = told.reduce((sum, { sure }) => sum + sure, 0) / told.length;
      expect(Math.abs(told.filter(({ right }) => right).length / told.length - mean)).toBeLessThan(0.12);
    }
  });
});
