import { type WearMap, wearLabel } from './labels.ts';

export const anotherDesignDefaults = {
  /** What stands there goes with the reference by less than this (correlation of heights) … */
  correlation: 0.5,
  /** … and has at least this share of its relief (standard deviations of heights). */
  relief: 0.35,
  /** A zone of no more relief than this bears none, mm. */
  leastMm: 0.02,
};

/**
 * Whether the subject bears another design in a zone: the heights h of the reference and h + d of the subject do not go together, though
 * both have relief there. Of what is rubbed or not filled little is left, and it goes with the reference. Heights and differences mm.
 */
export function isAnotherDesign(
  height: Float32Array,
  difference: Float32Array,
  { labels }: WearMap,
  cells: Uint8Array,
  { correlation, relief, leastMm } = anotherDesignDefaults,
): boolean {
  const skip = new Set([0, wearLabel('lost'), wearLabel('cannotJudge')]);
  let [n, sumH, sumS, sumHH, sumSS, sumHS] = [0, 0, 0, 0, 0, 0];
  for (let i = 0; i < cells.length; i++) {
    if (!cells[i] || skip.has(labels[i]) || Number.isNaN(difference[i])) continue;
    const h = height[i];
    const s = h + difference[i];
    n++;
    sumH += h;
    sumS += s;
    sumHH += h * h;
    sumSS += s * s;
    sumHS += h * s;
  }
  const ofReference = Math.sqrt(Math.max(0, sumHH - (sumH * sumH) / n));
  const ofSubject = Math.sqrt(Math.max(0, sumSS - (sumS * sumS) / n));
  const together = sumHS - (sumH * sumS) / n;
  if (ofReference < leastMm * Math.sqrt(n) || ofSubject < relief * ofReference) return false;
  return together < correlation * ofReference * ofSubject;
}
