import {
  type FeatureFigures,
  featureReadings,
  heldRatio,
  type RivalName,
  rivals,
  type Spread,
} from '../../src/core/judge/scoreModel.ts';
import type { EvidenceRow } from './evidence.ts';

export interface FittedScore {
  readonly figures: readonly FeatureFigures[];
  readonly offset: Readonly<Record<RivalName, number>>;
}

export const isSame = (row: EvidenceRow): boolean => !['handCopy', 'stockMotif', 'unrelated'].includes(row.relation);

/**
 * The figures of the score from the reference population: spreads of every feature over pairs of one matrix and over
 * each rival, then weights of the held log ratios and an offset for each rival by logistic regression without negative weights
 * (linear fusion; Brümmer and du Preez 2006), both classes counting alike, with a small penalty on the weights.
 */
export function fitScore(rows: readonly EvidenceRow[]): FittedScore {
  const values = (test: (row: EvidenceRow) => boolean): number[][] =>
    rows
      .filter((row) => row.features && test(row))
      .map(({ features }) => featureReadings.map(({ plain, weighed }) => (features ? weighed(plain(features)) : 0)));
  const same = values(isSame);
  const others = Object.fromEntries(rivals.map((name) => [name, values((row) => row.relation === name)]));
  const spread = (list: readonly number[][], k: number): Spread => spreadOf(list.map((row) => row[k]));
  const spreads = featureReadings.map((_, k) => ({
    same: spread(same, k),
    rival: Object.fromEntries(rivals.map((name) => [name, spread(others[name], k)])),
  }));
  const fusions = Object.fromEntries(
    rivals.map((name) => {
      const ratios = (list: readonly number[][]): number[][] =>
        list.map((row) => row.map((x, k) => heldRatio(x, spreads[k].same, spreads[k].rival[name])));
      return [name, logistic(ratios(same), ratios(others[name]))];
    }),
  );
  const figures = spreads.map(({ same: own, rival }, k) => ({
    same: own,
    against: Object.fromEntries(
      rivals.map((name) => [name, { spread: rival[name], weight: fusions[name].weights[k] }]),
    ) as FeatureFigures['against'],
  }));
  return {
    figures,
    offset: Object.fromEntries(rivals.map((name) => [name, fusions[name].offset])) as Record<RivalName, number>,
  };
}

/** Mean and standard deviation of the middle 96 %, widened by a tenth: one freak pair must not set them. */
function spreadOf(values: readonly number[]): Spread {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort((a, b) => a - b);
  const cut = Math.floor(0.02 * sorted.length);
  const held = sorted.map((value) => Math.max(sorted[cut], Math.min(sorted[sorted.length - 1 - cut], value)));
  const mean = held.reduce((sum, value) => sum + value, 0) / held.length;
  const sd = Math.sqrt(held.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (held.length - 1));
  return [mean, 1.1 * sd];
}

/** Weights and offset in powers of ten; gradient descent with weights held at 0 or above. */
function logistic(same: readonly number[][], other: readonly number[][]) {
  const n = featureReadings.length;
  const weights = new Array<number>(n).fill(0.3);
  let offset = 0;
  const penalty = 0.01;
  for (let round = 0; round < 6000; round++) {
    const slope = new Array<number>(n).fill(0);
    let slopeOffset = 0;
    for (const [list, truth] of [[same, 1] as const, [other, 0] as const])
      for (const row of list) {
        const score = row.reduce((sum, x, k) => sum + x * weights[k], offset);
        const error = (1 / (1 + 10 ** -score) - truth) / list.length;
        row.forEach((x, k) => {
          slope[k] += error * x;
        });
        slopeOffset += error;
      }
    for (let k = 0; k < n; k++) weights[k] = Math.max(0, weights[k] - 0.2 * (slope[k] + penalty * weights[k]));
    offset -= 0.2 * slopeOffset;
  }
  return { weights, offset };
}
