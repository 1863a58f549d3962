import { largestRegion } from '../../face/index.ts';
import { componentsOf, distanceTransform, type HeightGrid, withHeights } from '../../geometry/index.ts';
import type { BandFace } from './band.ts';

/** What is narrower than twice this share of the image's diameter is a tongue of the lip, no part of the image. */
const tongueShare = 0.06;

/**
 * The image in one piece, for the search of a legend: what stays of a bevel or lip beside it, a broken ring, splinters or tongues
 * that hang on the image by a bridge, would be the most regular ring of all. The largest piece, holes filled, is opened by a disc;
 * holes stay holes.
 */
export function imageAlone({ image, detail }: BandFace): HeightGrid {
  const grid = image ?? detail;
  const largest = largestRegion(grid, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY);
  const cells = largest.reduce((sum, there) => sum + there, 0);
  return withHeights(grid, grid.z, opened(largest, grid.width, tongueShare * 2 * Math.sqrt(cells / Math.PI)));
}

/** Cells of a region within `reach` of those that lie deeper than `reach` inside it, cells. */
function opened(region: Uint8Array, width: number, reach: number): Uint8Array {
  const margin = Math.ceil(reach) + 2;
  const wide = width + 2 * margin;
  const height = region.length / width;
  const inside = new Uint8Array(wide * (height + 2 * margin));
  const start = (row: number): number => (row + margin) * wide + margin;
  for (let row = 0; row < height; row++) inside.set(region.subarray(row * width, (row + 1) * width), start(row));
  const deep = componentsOf(over(distanceTransform(withoutHoles(inside, wide), wide), reach), wide);
  const away = new Uint8Array(inside.length).fill(1);
  for (const i of deep.reduce((p, q) => (q.length > p.length ? q : p), new Int32Array(0))) away[i] = 0;
  const beyond = over(distanceTransform(away, wide), reach);
  const left = new Uint8Array(region.length);
  for (let i = 0, row = 0; row < height; row++)
    for (let at = start(row); at < start(row) + width; at++, i++) left[i] = region[i] && !beyond[at] ? 1 : 0;
  return left;
}

/** Cells farther than `reach`. */
function over(distances: ArrayLike<number>, reach: number): Uint8Array {
  const farther = new Uint8Array(distances.length);
  for (let i = 0; i < farther.length; i++) farther[i] = distances[i] > reach ? 1 : 0;
  return farther;
}

/** A region whose first cell lies outside, with all that the outside does not reach. */
function withoutHoles(region: Uint8Array, width: number): Uint8Array {
  const outside = componentsOf(
    region.map((there) => 1 - there),
    width,
  ).find((piece) => piece.includes(0));
  const filled = new Uint8Array(region.length).fill(1);
  for (const i of outside ?? []) filled[i] = 0;
  return filled;
}
