import type { Random } from '../../src/core/geometry/index.ts';
import { crack, wanderFrom } from './accidents.ts';
import { chanceFor, roughField } from './chance.ts';
import { copyField, eachCellIn } from './field.ts';
import type { Made } from './made.ts';
import { bit } from './types.ts';
import type { Relief } from './wax.ts';

/**
 * A small seal of wax as it is some years later, `made` left as it was: a flake gone from the motif, a crack opened in from the rim, and
 * a film left on the field. Places in the design frame, mm.
 */
export function yearsLater(made: Made, seed: number): Made {
  const relief: Relief = { field: copyField(made.relief.field), flags: made.relief.flags.slice() };
  const random = chanceFor(seed, 'later');
  const line = wanderFrom(4.4, -2.6, -0.55, 5, 0.05, random);
  const opened = crack(relief, line, 0.36, 0.3, bit.chip);
  patch(relief, { x: -1.4, y: 1.6, radiusMm: 1, heightMm: -0.11 }, random);
  patch(relief, { x: 0.9, y: -3.6, radiusMm: 1.3, heightMm: 0.07 }, random);
  return { ...made, relief, marks: [...made.marks, opened] };
}

/** A ragged patch lower or higher by `heightMm`, its edge falling over a fifth of its radius. */
function patch(
  { field, flags }: Relief,
  { x, y, radiusMm: r, heightMm }: { x: number; y: number; radiusMm: number; heightMm: number },
  random: Random,
): void {
  const ragged = roughField(random, r, 3, 0.6);
  const reach = 1.5 * r;
  eachCellIn(field, x - reach, x + reach, y - reach, y + reach, (index, cx, cy) => {
    const inside = 1 - Math.hypot(cx - x, cy - y) / r + 0.2 * ragged(cx, cy);
    if (inside <= 0) return;
    field.z[index] += heightMm * Math.min(1, 5 * inside);
    flags[index] |= heightMm < 0 ? bit.chip : bit.debris;
  });
}
