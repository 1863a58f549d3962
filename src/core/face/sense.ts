import {
  bandPass,
  erode,
  everyNthAcross,
  type HeightGrid,
  quantileOfSorted,
  sortedFinite,
  withHeights,
} from '../geometry/index.ts';
import type { Sense } from './types.ts';

/** Engraved or raised, and how sure: 0.5, cannot be told, to 1. */
export interface ReadSense {
  readonly sense: Sense;
  readonly confidence: number;
}

export const senseDefaults = {
  /** A face that reads as engraved with this confidence is a matrix's, and lies in no cake of wax. */
  engraved: 0.6,
  /** How sure a face within the wall that a matrix left in wax is raised: all of 35 were. */
  withinWall: 0.9,
};

/** Whether a face may lie in a cake of wax: a matrix does not. */
export const mayLieInWax = ({ sense, confidence }: ReadSense): boolean =>
  sense === 'relief' || confidence < senseDefaults.engraved;

/** The sense of a face that lies within such a wall, whatever the wax around made it read as. */
export const withinWall = ({ sense, confidence }: ReadSense): ReadSense => ({
  sense: 'relief',
  confidence: Math.max(senseDefaults.withinWall, sense === 'relief' ? confidence : 0),
});

/** Cells along a side at most: six to the shortest wave that is looked at. */
const mostAcross = 480;

/**
 * Engraved or raised, seen from the side that was taken as the outside: strokes are the smaller part of a face, so
 * they pull the heights of an engraved face down and those of an impression up. The robust skewness
 * (q95 + q05 − 2 q50)/(q95 − q05) of the detail decides (Hinkley's generalisation of Bowley's, 1975);
 * its size gives the confidence, 0.5 to 1.
 */
export function senseOf(relief: HeightGrid, sizeMm: number): ReadSense {
  const detail = everyNthAcross(relief, mostAcross);
  const inner = erode(detail.mask, detail.width, Math.round((0.14 * sizeMm) / detail.pitch));
  const part = withHeights(detail, detail.z, inner);
  const skewness = robustSkewness(bandPass(part, sizeMm / 80, sizeMm / 8));
  return { sense: skewness < 0 ? 'intaglio' : 'relief', confidence: 0.5 + 0.5 * Math.min(1, Math.abs(skewness) * 2) };
}

function heightsOf({ z, mask }: HeightGrid): Float32Array {
  const heights = new Float32Array(z.length);
  let n = 0;
  for (let i = 0; i < heights.length; i++) if (mask[i] === 1) heights[n++] = z[i];
  return heights.subarray(0, n);
}

function robustSkewness(grid: HeightGrid): number {
  const sorted = sortedFinite(heightsOf(grid));
  const [low, middle, high] = [0.05, 0.5, 0.95].map((q) => quantileOfSorted(sorted, q));
  return high > low ? (high + low - 2 * middle) / (high - low) : 0;
}
