import type { SubjectSurface } from '../../fit/index.ts';
import { fitForm, formAt, type HeightGrid, rangeOfForm, withHeights, xOf, yOf } from '../../geometry/index.ts';

export const ownFormDefaults = {
  /** Domes lower than this from the fifth to the ninety-fifth of a hundred cells are left to levelling, which follows so much by itself, mm. */
  leastMm: 0.1,
};

/**
 * The subject's surface on the form of the reference. Of each face its own second-order form was taken off, over all that its scan shows, walls, lip and
 * table with it; where one scan shows more of these than the other, what is left of the two differs by a dome. So the second-order form of the
 * difference inside the outline is taken off first, fitted with weights that walls do not enter: local levelling holds on to the dome's middle and follows the walls.
 * `a` in the positive sense; heights mm.
 */
export function onOneForm(
  a: HeightGrid,
  b: SubjectSurface,
  inside: Uint8Array,
  { leastMm } = ownFormDefaults,
): SubjectSurface {
  const difference = differenceOf(a, b, inside);
  const form = fitForm(difference, 2);
  if (rangeOfForm(difference, form) < leastMm) return b;
  const off = (col: number, row: number): number => formAt(form, xOf(a, col), yOf(a, row));
  return {
    at: (col, row) => b.at(col, row) - off(col, row),
    sharpAt: (col, row) => b.sharpAt(col, row) - off(col, row),
  };
}

function differenceOf(a: HeightGrid, b: SubjectSurface, inside: Uint8Array): HeightGrid {
  const z = new Float32Array(a.z.length);
  const mask = new Uint8Array(a.mask.length);
  for (let row = 0, i = 0; row < a.height; row++)
    for (let col = 0; col < a.width; col++, i++) {
      if (!inside[i] || !a.mask[i]) continue;
      const height = b.at(col, row);
      if (Number.isNaN(height)) continue;
      z[i] = height - a.z[i];
      mask[i] = 1;
    }
  return withHeights(a, z, mask);
}
