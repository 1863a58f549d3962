import { type Band, parallelAt } from '../../src/core/design/index.ts';
import { middleDepth } from '../../src/core/read/index.ts';
import { quantileOf } from './table.ts';
import type { Point, WornSeal } from './wornSeals.ts';

/** How far a band found lies from the true one. */
export interface BandError {
  /** Letters' middle line, mm: half, and 95 of 100, of its points lie no farther from the true one. */
  readonly middleMm: number;
  readonly middleMostMm: number;
  /** Share of both edges' points that lie between the border line beside them and the letters. */
  readonly edgesInGap: number;
  /** Height of the letters found ÷ the true one. */
  readonly letters: number;
}

/** The border lines' middles lie about 0.25 mm outside the band, the letters begin 0.13 of its width inside. */
const lineBeyondMm = 0.25;
const lettersWithin = 0.13;

export function bandError(seal: WornSeal, band: Band): BandError {
  const middle = distances(parallelAt(band, middleDepth(band)), seal.parallel(0.5));
  const share = lineBeyondMm / seal.bandMm;
  const inGap = (depthMm: number, line: number, letters: number): boolean[] => {
    const edge = parallelAt(band, depthMm);
    const wide = Math.abs(letters - line) * seal.bandMm;
    const toLine = distances(edge, seal.parallel(line));
    const toLetters = distances(edge, seal.parallel(letters));
    return toLine.map((value, i) => value <= wide + slackMm && toLetters[i] <= wide + slackMm);
  };
  const edges = [...inGap(band.outerMm, -share, lettersWithin), ...inGap(band.innerMm, 1 + share, 1 - lettersWithin)];
  return {
    middleMm: quantileOf(middle, 0.5),
    middleMostMm: quantileOf(middle, 0.95),
    edgesInGap: edges.filter(Boolean).length / Math.max(1, edges.length),
    letters: (band.lettersInnerMm - band.lettersOuterMm) / seal.letterMm,
  };
}

const slackMm = 0.05;

/** Found: the middle line within a tenth of the letters' height, and both edges in their gaps, over nineteen twentieths of the round. */
export const isFound = (error: BandError, seal: WornSeal): boolean =>
  error.middleMostMm <= 0.1 * seal.letterMm && error.edgesInGap >= 0.95;

/** Distance, mm, from every eighth point of a ring to the nearest of the points. */
function distances(ring: Float64Array, points: readonly Point[]): number[] {
  const list: number[] = [];
  for (let i = 0; i < ring.length; i += 16) {
    let least = Number.POSITIVE_INFINITY;
    for (const [x, y] of points) least = Math.min(least, (x - ring[i]) ** 2 + (y - ring[i + 1]) ** 2);
    list.push(Math.sqrt(least));
  }
  return list;
}
