import { describe, expect, it } from 'vitest';
import { joinBays } from '../../../src/core/condition/losses/joinBays.ts';

/** A closed edge of four sides of 40 points each, 0.5 mm apart, whose corners turn by a right angle. */
const square = Float64Array.from(
  Array.from({ length: 160 }, (_, i) => {
    const [side, along] = [Math.floor(i / 40), 0.5 * (i % 40)];
    return [
      [along, 0],
      [20, along],
      [20 - along, 20],
      [0, 20 - along],
    ][side];
  }).flat(),
);
const run = (from: number, length: number): number[] => Array.from({ length }, (_, k) => (from + k) % 160);
const joined = (bays: number[][], alongside: (i: number) => boolean = () => true): (readonly number[])[] =>
  joinBays(square, bays, alongside, 0.5);

describe('bays of one break', () => {
  it('are one stretch along a side, with what lies between them, wherever the edge is begun', () => {
    expect(joined([run(2, 12), run(18, 12)])).toEqual([run(2, 28)]);
    expect(joined([run(18, 12), run(2, 12)]).map((bay) => bay.length)).toEqual([28]);
  });

  it('are two round a corner, too far apart, too short together, or where the other edge leaves this one between them', () => {
    expect(joined([run(25, 12), run(42, 12)])).toHaveLength(2);
    expect(joined([run(2, 8), run(20, 12)])).toHaveLength(2);
    expect(joined([run(2, 12), run(18, 12)], (i) => i !== 15)).toHaveLength(2);
    expect(joined([run(2, 4), run(8, 4)])).toEqual([run(2, 4), run(8, 4)]);
  });

  it('are none where they are too short to have a direction', () => {
    expect(joined([run(2, 1), run(8, 1)])).toEqual([]);
  });
});
