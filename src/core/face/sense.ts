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
  /** What lies farther out than all but this share of the heights, spikes and pits, counts as that much. */
  extreme: 0.005,
  /** How sure a face within the wall that a matrix left in wax is raised: all of 52 were. */
  withinWall: 0.9,
};

/** The sense of a face that lies within such a wall, whatever the wax around made it read as. */
export const withinWall = ({ sense, confidence }: ReadSense): ReadSense => ({
  sense: 'relief',
  confidence: Math.max(senseDefaults.withinWall, sense === 'relief' ? confidence : 0),
});

/** Cells along a side at most: six to the shortest wave that is looked at. */
const mostAcross = 480;

/**
 * Engraved or raised, seen from the side that was taken as the outside: strokes are the smaller part of a face, so
 * they lie far below its middle where they are engraved and far above it on an impression. What its upper and lower semivariance about the
 * median differ by, (s₊² − s₋²)/(s₊² + s₋²) of the detail, decides: by their squares a few deep strokes in a wide field are seen as well
 * as many. Its size gives the confidence, 0.5 to 1.
 */
export function senseOf(relief: HeightGrid, sizeMm: number): ReadSense {
  const detail = everyNthAcross(relief, mostAcross);
  const inner = erode(detail.mask, detail.width, Math.round((0.14 * sizeMm) / detail.pitch));
  const part = withHeights(detail, detail.z, inner);
  const lean = leanOf(heightsOf(bandPass(part, sizeMm / 80, sizeMm / 8)), senseDefaults.extreme);
  return { sense: lean < 0 ? 'intaglio' : 'relief', confidence: 0.5 + 0.5 * Math.min(1, Math.abs(lean) * 2) };
}

function heightsOf({ z, mask }: HeightGrid): Float32Array {
  const heights = new Float32Array(z.length);
  let n = 0;
  for (let i = 0; i < heights.length; i++) if (mask[i] === 1) heights[n++] = z[i];
  return heights.subarray(0, n);
}

/** Upper less lower semivariance about the median, over both; 0 where all heights are one. */
function leanOf(heights: Float32Array, extreme: number): number {
  const sorted = sortedFinite(heights);
  const [low, middle, high] = [extreme, 0.5, 1 - extreme].map((q) => quantileOfSorted(sorted, q));
  let [above, below] = [0, 0];
  for (const height of sorted) {
    const off = Math.min(high, Math.max(low, height)) - middle;
    if (off > 0) above += off ** 2;
    else below += off ** 2;
  }
  return above + below > 0 ? (above - below) / (above + below) : 0;
}
