import { correlationAt } from '../../geometry/index.ts';
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
 * Whether the subject bears another design in a zone: the heights of reference and subject do not go together, though both have relief
 * there. Of what is rubbed or not filled little is left, and it goes with the reference. Heights mm, the subject's NaN without data.
 */
export function isAnotherDesign(
  reference: Float32Array,
  subject: Float32Array,
  { labels }: WearMap,
  cells: Uint8Array,
  { correlation, relief, leastMm } = anotherDesignDefaults,
): boolean {
  const skip = new Set([0, wearLabel('lost'), wearLabel('cannotJudge')]);
  const judged: number[] = [];
  for (let i = 0; i < cells.length; i++)
    if (cells[i] && !skip.has(labels[i]) && !Number.isNaN(subject[i])) judged.push(i);
  const ofReference = spreadAt(judged, reference);
  if (ofReference < leastMm || spreadAt(judged, subject) < relief * ofReference) return false;
  return (correlationAt(judged, reference, subject) ?? 1) < correlation;
}

/** Standard deviation of a field over some of its places. */
function spreadAt(places: readonly number[], field: Float32Array): number {
  const mean = places.reduce((sum, i) => sum + field[i], 0) / places.length;
  return Math.sqrt(places.reduce((sum, i) => sum + (field[i] - mean) ** 2, 0) / places.length);
}
