import { convexHull, xOf, yOf } from '../geometry/index.ts';
import type { Face } from './types.ts';

/**
 * Where a face's image is: its convex hull in the face frame, x and y in turn, mm, what is broken or was peeled within it included, wax and
 * bevel beyond it not. Zones, marks and statistics are of it. Where no image is left, the outline.
 */
export function imageHull({ image, outline }: Pick<Face, 'image' | 'outline'>): Float64Array {
  const ends: number[] = [];
  for (let row = 0; row < image.height; row++) {
    const cells = image.mask.subarray(row * image.width, (row + 1) * image.width);
    const from = cells.indexOf(1);
    if (from >= 0) ends.push(xOf(image, from), yOf(image, row), xOf(image, cells.lastIndexOf(1)), yOf(image, row));
  }
  return ends.length > 0 ? convexHull(Float64Array.from(ends)) : outline.polygon;
}
