import { convexHull, xOf, yOf } from '../geometry/index.ts';
import type { Face } from './types.ts';

/** Convex hull of a face's image in the face frame, x and y in turn, mm: what is broken or was peeled within it included, wax and bevel beyond it not. */
export function imageHull({ image }: Pick<Face, 'image'>): Float64Array {
  const ends: number[] = [];
  for (let row = 0; row < image.height; row++) {
    const cells = image.mask.subarray(row * image.width, (row + 1) * image.width);
    const from = cells.indexOf(1);
    if (from >= 0) ends.push(xOf(image, from), yOf(image, row), xOf(image, cells.lastIndexOf(1)), yOf(image, row));
  }
  return convexHull(Float64Array.from(ends));
}
