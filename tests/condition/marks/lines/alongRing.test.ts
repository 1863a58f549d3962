import { describe, expect, it } from 'vitest';
import { alongRing } from '../../../../src/core/condition/marks/lines/alongRing.ts';
import type { Chain } from '../../../../src/core/condition/marks/lines/chains.ts';
import { xOf, yOf } from '../../../../src/core/geometry/index.ts';
import { pair, type Surface } from '../../pressedSeal.ts';

/** A ridge a third of a millimetre wide and a quarter high along a closed way at one distance from the middle. */
const ring: Surface = (x, y) => 0.25 * Math.exp(-(((Math.hypot(x, y) - 7) / 0.25) ** 2));
const bare: Surface = () => 0;
const sector = (x: number, y: number): boolean => Math.abs(Math.atan2(y, x)) < 0.6;

/** Cells of the grid that a way passes, as a line of the difference that the reference alone has. */
function lineOn(reference: Surface, subject: Surface, on: (x: number, y: number) => boolean): boolean {
  const relief = pair(subject, reference);
  const { width } = relief.reference;
  const cells = [...relief.reference.z.keys()].filter(
    (i) => relief.inside[i] && on(xOf(relief.reference, i % width), yOf(relief.reference, Math.floor(i / width))),
  );
  expect(cells.length).toBeGreaterThan(10);
  return alongRing(relief, { chain: { cells } as unknown as Chain, onReferenceMm: 0.25, onSubjectMm: 0 });
}

describe('alongRing', () => {
  const arc = (x: number, y: number): boolean => sector(x, y) && Math.abs(Math.hypot(x, y) - 7) < 0.15;
  const across = (x: number, y: number): boolean => Math.abs(y) < 0.15 && x > 2 && x < 10;

  it('is true of what the subject lacks of a ring that goes on all round', () => {
    expect(lineOn(ring, (x, y) => (sector(x, y) ? 0 : ring(x, y)), arc)).toBe(true);
  });

  it('is false of a line that crosses the ring, and of an arc where the reference has no ring', () => {
    expect(lineOn((x, y) => ring(x, y) + (across(x, y) ? 0.25 : 0), ring, across)).toBe(false);
    expect(lineOn((x, y) => (sector(x, y) ? ring(x, y) : 0), bare, arc)).toBe(false);
  });
});
