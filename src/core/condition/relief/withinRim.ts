import { distanceTransform, type HeightGrid, median } from '../../geometry/index.ts';
import { sampled } from './parts.ts';

export const rimDefaults = {
  /** Two surfaces are apart where they differ by so many mm, and by so many times the usual difference (1.4826 median deviations). */
  apartMm: 0.25,
  apartTimes: 5,
  /** At one distance from the edge all round this share of what both show is apart: there neither the image nor a loss of it is seen. */
  allRound: 0.5,
  /** Cells left out farther in than the last ring that is apart. */
  foot: 2.5,
  /** No farther in than this share of the size. */
  farthest: 0.08,
};

/**
 * `inside` without what lies outside the image on one of the two: where the two surfaces are apart nearly all round the edge, one shows its
 * wall, lip or table, which differ on every object. A break takes one side of the rim and not all of it. Read ring by ring from the edge in, a cell
 * wide, until one is not apart; the foot of a wall reaches a little farther.
 */
export function withinRim(
  reference: HeightGrid,
  subject: HeightGrid,
  inside: Uint8Array,
  sizeMm: number,
  options = rimDefaults,
): Uint8Array {
  const { width, pitch } = reference;
  const both = (i: number): boolean => inside[i] === 1 && reference.mask[i] === 1 && subject.mask[i] === 1;
  const difference = Float32Array.from(reference.z, (z, i) => subject.z[i] - z);
  const all = sampled(difference, both);
  if (all.length === 0) return inside;
  const middle = median(all);
  const usual = 1.4826 * median(all.map((value) => Math.abs(value - middle)));
  const apart = Math.max(options.apartMm, options.apartTimes * usual);
  const fromEdge = distanceTransform(inside, width);
  const rings = Math.floor((options.farthest * sizeMm) / pitch);
  const counts = new Uint32Array(rings + 1);
  const off = new Uint32Array(rings + 1);
  for (let i = 0; i < inside.length; i++) {
    if (!both(i)) continue;
    const ring = Math.floor(fromEdge[i] - 0.5);
    if (ring > rings) continue;
    counts[ring]++;
    if (Math.abs(difference[i] - middle) > apart) off[ring]++;
  }
  let outer = 0;
  while (outer < rings && off[outer] > options.allRound * Math.max(1, counts[outer])) outer++;
  if (outer === 0) return inside;
  return inside.map((value, i) => (value && fromEdge[i] >= outer + options.foot ? 1 : 0));
}
