import { componentsOf, type HeightGrid, median } from '../../geometry/index.ts';
import { sampled } from './parts.ts';

/** Two levelled faces, as in `WearRelief`. */
interface Levelled {
  readonly reference: HeightGrid;
  readonly difference: Float32Array;
  readonly inside: Uint8Array;
  readonly fromEdge: Float32Array;
  readonly sizeMm: number;
}

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
 * wide, until one is not apart; the foot of a wall reaches a little farther, and what is apart and hangs on it is the same wall
 * where it reaches no farther in than such rings may.
 */
export function withinRim(relief: Levelled, options = rimDefaults): Uint8Array {
  const { reference, inside, fromEdge, sizeMm } = relief;
  const apart = apartCells(relief, options);
  const most = Math.floor((options.farthest * sizeMm) / reference.pitch);
  const outer = ringsApart(relief, apart, most, options);
  if (outer === 0) return inside;
  const rim = Uint8Array.from(inside, (value, i) => (value && fromEdge[i] < outer + options.foot ? 1 : 0));
  const walls = componentsOf(
    apart.map((value, i) => (value || rim[i] ? 1 : 0)),
    reference.width,
  );
  for (const cells of walls) if (cells.every((i) => fromEdge[i] <= most)) for (const i of cells) rim[i] = 1;
  return inside.map((value, i) => (value && !rim[i] ? 1 : 0));
}

/** Cells where the two surfaces lie apart. */
function apartCells({ difference, inside }: Levelled, { apartMm, apartTimes }: typeof rimDefaults): Uint8Array {
  const all = sampled(difference, (i) => inside[i] === 1 && !Number.isNaN(difference[i]));
  const middle = median(all);
  const usual = 1.4826 * median(all.map((value) => Math.abs(value - middle)));
  const least = Math.max(apartMm, apartTimes * usual);
  return Uint8Array.from(difference, (value, i) => (inside[i] && Math.abs(value - middle) > least ? 1 : 0));
}

/** How many rings from the edge in are apart all round. */
function ringsApart(
  { difference, inside, fromEdge }: Levelled,
  apart: Uint8Array,
  most: number,
  { allRound }: typeof rimDefaults,
): number {
  const counts = new Uint32Array(most + 1);
  const off = new Uint32Array(most + 1);
  for (let i = 0; i < inside.length; i++) {
    const ring = Math.floor(fromEdge[i] - 0.5);
    if (!inside[i] || Number.isNaN(difference[i]) || ring > most) continue;
    counts[ring]++;
    off[ring] += apart[i];
  }
  let outer = 0;
  while (outer < most && off[outer] > allRound * Math.max(1, counts[outer])) outer++;
  return outer;
}
