import { type HeightGrid, turnGridOver, withHeights } from '../../geometry/index.ts';

/** Which way the object is shown. */
export const views = ['asItIs', 'mirrored', 'turnedOver'] as const;
export type View = (typeof views)[number];

/**
 * The relief as it is shown: as it is; mirrored, (x, y, z) → (−x, y, z), which no object looks like; or turned over,
 * (x, y, z) → (−x, y, −z), so that a matrix looks as its impression and an impression as its matrix. Lamps are set
 * against the result, so they stay locked to the picture.
 */
export function viewGrid(grid: HeightGrid, view: View): HeightGrid {
  if (view === 'asItIs') return grid;
  const over = turnGridOver(grid);
  return view === 'turnedOver'
    ? over
    : withHeights(
        over,
        over.z.map((value) => (value === 0 ? 0 : -value)),
      );
}

/** x of the picture shown ↔ x of the face: both ways the same. */
export const viewX = (x: number, view: View): number => (view === 'asItIs' ? x : -x);
