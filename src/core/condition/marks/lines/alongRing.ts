import type { WearRelief } from '../../relief/relief.ts';
import type { LineMark } from './lines.ts';

export const alongRingDefaults = {
  /** A line keeps to a ring where this share of it lies at one distance from the edge, within a band of so many mm (two cells at least) … */
  bandMm: 0.5,
  leastShare: 0.4,
  /** … and the reference has a crest at that distance all round, of so much of the line's own height; its sides are taken so far off, mm. */
  leastCrest: 0.2,
  besideMm: 0.6,
};

/**
 * Whether a line runs along a ring of the design for much of its way: the border's, the legend's inner one, a row of beads. What the
 * subject lacks of such a ring is worn or not filled, and what joins it at either end is the stroke of a letter.
 */
export function alongRing(
  relief: WearRelief,
  { chain: { cells }, onReferenceMm, onSubjectMm }: Omit<LineMark, 'carriedBy'>,
  options = alongRingDefaults,
): boolean {
  const wide = Math.max(2, options.bandMm / relief.reference.pitch);
  const [share, from] = densestBand(relief, cells, wide);
  if (share < options.leastShare) return false;
  const heightMm = Math.max(Math.abs(onReferenceMm), Math.abs(onSubjectMm));
  return ringCrest(relief, cells, from, wide, options) >= options.leastCrest * heightMm;
}

/** Greatest share of the cells within one band of distances from the edge, and where that band begins, cells. */
function densestBand({ fromEdge }: WearRelief, cells: readonly number[], wide: number): [share: number, from: number] {
  const depths = cells.map((i) => fromEdge[i]).sort((a, b) => a - b);
  let [most, at] = [0, 0];
  for (let from = 0, to = 0; to < depths.length; to++) {
    while (depths[to] - depths[from] > wide) from++;
    if (to - from + 1 > most) [most, at] = [to - from + 1, depths[from]];
  }
  return [most / Math.max(1, depths.length), at];
}

/** Mean height of the reference in the band all round, the line left out, over the higher of the bands on both sides, mm. */
function ringCrest(
  { reference, inside, fromEdge, narrow }: WearRelief,
  cells: readonly number[],
  from: number,
  wide: number,
  { besideMm }: typeof alongRingDefaults,
): number {
  const own = new Set(cells);
  const beside = Math.max(2, besideMm / reference.pitch);
  const sums = [0, 0, 0];
  const counts = [0, 0, 0];
  for (let i = 0; i < inside.length; i++) {
    if (!inside[i] || !reference.mask[i] || own.has(i)) continue;
    const off = fromEdge[i] - from;
    const which = off < 0 ? (off >= -beside ? 0 : -1) : off <= wide ? 1 : off <= wide + beside ? 2 : -1;
    if (which < 0) continue;
    sums[which] += narrow.reference[i];
    counts[which]++;
  }
  const [outer, on, inner] = sums.map((sum, k) => sum / Math.max(1, counts[k]));
  return on - Math.max(outer, inner);
}
