import type { Features } from '../../src/core/judge/features.ts';
import {
  coarseness,
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
  const weighed = (test: (row: EvidenceRow) => boolean): Weighed[] =>
    rows.flatMap((row) => (row.features && test(row) ? [weighedOf(row.features)] : []));
  const same = weighed(isSame);
  const others = Object.fromEntries(rivals.map((name) => [name, weighed((row) => row.relation === name)]));
  const spreads = featureReadings.map((_, k) => ({
    same: spreadOf(same, k),
    rival: Object.fromEntries(rivals.map((name) => [name, spreadOf(others[name], k)])),
  }));
  const fusions = Object.fromEntries(
    rivals.map((name) => {
      const ratios = (list: readonly Weighed[]): number[][] =>
        list.map(({ values, coarse }) =>
          values.map((x, k) => heldRatio(x, coarse, spreads[k].same, spreads[k].rival[name])),
        );
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

interface Weighed {
  readonly values: readonly number[];
  readonly coarse: number;
}

const weighedOf = (features: Features): Weighed => ({
  values: featureReadings.map(({ plain, weighed }) => weighed(plain(features))),
  coarse: coarseness(features),
});

/** Line through a feature over coarseness with Huber weights, and the spread about it, widened by a tenth. */
function spreadOf(list: readonly Weighed[], k: number): Spread {
  const points = list.flatMap(({ values, coarse }) => (Number.isNaN(values[k]) ? [] : [[coarse, values[k]] as const]));
  let weights = points.map(() => 1);
  let [mean, slope, sd] = [0, 0, 1];
  for (let pass = 0; pass < 12; pass++) {
    const sum = (of: (x: number, y: number) => number): number =>
      points.reduce((total, [x, y], i) => total + weights[i] * of(x, y), 0);
    const n = sum(() => 1);
    const [mx, my] = [sum((x) => x) / n, sum((_, y) => y) / n];
    slope =
      sum((x, y) => (x - mx) * (y - my)) /
      Math.max(
        1e-9,
        sum((x) => (x - mx) ** 2),
      );
    mean = my - slope * mx;
    sd = Math.sqrt(sum((x, y) => (y - mean - slope * x) ** 2) / n);
    weights = points.map(([x, y]) => Math.min(1, (2 * sd) / Math.max(1e-9, Math.abs(y - mean - slope * x))));
  }
  return [mean, slope, 1.1 * sd];
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
