import { gaussianFilter, median, quantile } from '../../geometry/index.ts';
import { heightOverGround, onOwnForm } from './ground.ts';
import { slopesOf } from './level.ts';
import { expectedDifference } from './lowering.ts';
import { sampled } from './parts.ts';
import type { WearRelief } from './relief.ts';

export const lossDefaults = {
  /** Cut-off for the surroundings over which a cell stands out, mm, and at most this share of the size. */
  surroundingsMm: 9,
  surroundingsShare: 0.25,
  /** Cut-off for the edge measure, in cells. */
  edgeCells: 7,
  exposureBins: 8,
  edgeBins: 4,
  rounds: 8,
  /** Weight of each of the eight neighbours' opinion, in log odds. */
  neighbour: 0.25,
  neighbourRounds: 4,
  /** Least standard deviation that is believed, mm. */
  leastMm: 0.012,
  /** Height from which a lack counts, mm. */
  leastLossMm: 0.015,
};

/** How likely each cell lacks height, and what that was judged by. */
export interface LossField {
  /** Probability that the subject lacks height there; 0 where either face has no data. */
  readonly probability: Float32Array;
  /** Difference that it is expected to have truly, by its own and by how its neighbourhood was lowered, mm; NaN outside the image or without data. */
  readonly expected: Float32Array;
  /** Standard deviation of the difference where nothing happened, mm: noise, interpolation, registration on slopes. */
  readonly sigma: Float32Array;
  /** Height of the reference over its surroundings, mm. */
  readonly exposure: Float32Array;
  /** Height over the ground, mm: of the reference, and of the subject. */
  readonly height: Float32Array;
  readonly subjectHeight: Float32Array;
  /** Mean height lacking where it lacks, mm. */
  readonly meanLossMm: number;
}

/**
 * Which cells lack height: a mixture of "as the reference" d ~ N(0, σ²) and "lacking" d ~ −t − Exp(L) + N(0, σ²).
 * σ depends on the slope and is measured on the side where loss cannot be (d > 0). The share that lacks is found
 * for classes of exposure and of edge by expectation and maximisation, since wear follows exposure; neighbours then
 * vote (mean field of an Ising prior). Heights mm.
 */
export function lossField(relief: WearRelief, options = lossDefaults): LossField {
  const { reference, subject, difference: d, inside, image, sizeMm } = relief;
  const surroundings = Math.min(options.surroundingsMm, options.surroundingsShare * sizeMm);
  const own = onOwnForm(reference, image);
  const exposure = above(own.z, gaussianFilter(own, surroundings).z);
  const height = heightOverGround(own, exposure, image);
  const subjectHeight = heightOverGround(onOwnForm(subject, inside), exposure, inside);
  const edge = above(reference.z, gaussianFilter(reference, options.edgeCells * reference.pitch).z);
  // A wall or lip is no noise and no loss.
  const use = d.map((value, i) => (image[i] && !Number.isNaN(value) ? 1 : 0));
  const sigma = spreadBySlope(relief, use, options.leastMm);
  const classes = classesOf(exposure, edge, use, options);
  const { prior, meanLossMm } = shares(d, sigma, classes, use, options);
  const odds = logOdds(d, sigma, classes, use, prior, meanLossMm, options.leastLossMm);
  const expected = expectedDifference(relief, sigma, [raised(exposure), raised(relief.narrow.reference), raised(edge)]);
  const probability = vote(odds, use, reference.width, options);
  return { probability, expected, sigma, exposure, height, subjectHeight, meanLossMm };
}

const raised = (heights: Float32Array): Float32Array => heights.map((value) => Math.max(0, value));

const above = (z: Float32Array, mean: Float32Array): Float32Array => z.map((value, i) => value - mean[i]);

/** σ in eight classes of slope from the median of the positive differences: a half normal's median is 0.6745 σ. */
function spreadBySlope({ reference, difference: d }: WearRelief, use: Float32Array, leastMm: number): Float32Array {
  const slopes = slopesOf(reference);
  const slope = slopes.x.map((gx, i) => Math.hypot(gx, slopes.y[i]));
  const limits = cutPoints(
    sampled(slope, (i) => use[i] === 1),
    8,
  );
  const positive: number[][] = Array.from({ length: 8 }, () => []);
  for (let i = 0; i < d.length; i++) if (use[i] && d[i] > 0) positive[classOf(slope[i], limits)].push(d[i]);
  let last = leastMm;
  const found = positive.map((values) => {
    const sigma = values.length > 30 ? median(values) / 0.6745 : last;
    last = Math.max(last, sigma);
    return last;
  });
  return slope.map((value) => found[classOf(value, limits)]);
}

/** The inner limits of `count` classes of equal size. */
const cutPoints = (values: ArrayLike<number>, count: number): number[] =>
  Array.from({ length: count - 1 }, (_, k) => quantile(values, (k + 1) / count));

function classOf(value: number, limits: readonly number[]): number {
  let k = 0;
  while (k < limits.length && value > limits[k]) k++;
  return k;
}

function classesOf(
  exposure: Float32Array,
  edge: Float32Array,
  use: Float32Array,
  { exposureBins, edgeBins }: typeof lossDefaults,
): Uint8Array {
  const sample = (values: Float32Array): Float32Array => sampled(values, (i) => use[i] === 1);
  const byExposure = cutPoints(sample(exposure), exposureBins);
  const byEdge = cutPoints(sample(edge), edgeBins);
  return Uint8Array.from(exposure, (value, i) => classOf(value, byExposure) * edgeBins + classOf(edge[i], byEdge));
}

/** Share that lacks in each class, and the mean height lacking, mm. */
function shares(
  d: Float32Array,
  sigma: Float32Array,
  classes: Uint8Array,
  use: Float32Array,
  options: typeof lossDefaults,
) {
  const count = options.exposureBins * options.edgeBins;
  const prior = new Float64Array(count).fill(0.2);
  let meanLossMm = 0.08;
  const stride = Math.max(1, Math.floor(d.length / 20_000)) | 1;
  const cells: number[] = [];
  for (let i = 0; i < d.length; i += stride) if (use[i]) cells.push(i);
  // What of the ratio does not change from round to round.
  const fixed = Float64Array.from(cells, (i) => fixedPart(d[i], sigma[i]));
  for (let round = 0; round < options.rounds; round++) {
    const share = new Float64Array(count).fill(0.4);
    const counted = new Float64Array(count).fill(4);
    const bias = prior.map((p) => Math.log(p / (1 - p)));
    let [lost, weight] = [0.08, 1];
    for (let n = 0; n < cells.length; n++) {
      const i = cells[n];
      const k = classes[i];
      const ratio = fixed[n] + meanPart(d[i] + options.leastLossMm, sigma[i], meanLossMm);
      const p = 1 / (1 + Math.exp(-ratio - bias[k]));
      share[k] += p;
      counted[k]++;
      if (d[i] < 0) {
        lost -= p * d[i];
        weight += p;
      }
    }
    for (let k = 0; k < count; k++) prior[k] = Math.max(0.002, Math.min(0.95, share[k] / counted[k]));
    meanLossMm = Math.max(0.03, Math.min(0.4, lost / weight));
  }
  return { prior, meanLossMm };
}

/** log p(d | lacking) − log p(d | as the reference): an exponential of mean L folded with the noise, over the noise. */
const logRatio = (d: number, sigma: number, mean: number, least: number): number =>
  fixedPart(d, sigma) + meanPart(d + least, sigma, mean);

/** −log of the normal density. */
const fixedPart = (d: number, sigma: number): number => Math.log(sigma * 2.5066282746) + d ** 2 / (2 * sigma ** 2);

/** log of (1/L) exp(σ²/2L² + d/L) Φ(−z), z = σ/L + d/σ. */
const meanPart = (d: number, sigma: number, mean: number): number =>
  -Math.log(mean) + sigma ** 2 / (2 * mean ** 2) + d / mean + logUpperTail(sigma / mean + d / sigma);

/** log of the normal distribution's upper tail; Abramowitz and Stegun 26.2.17, and its asymptote beyond 5. */
function logUpperTail(z: number): number {
  if (z > 5) return (-z * z) / 2 - Math.log(z * 2.5066282746);
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const poly = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const upper = 0.3989422804 * Math.exp((-z * z) / 2) * poly;
  return Math.log(z >= 0 ? upper : 1 - upper);
}

function logOdds(
  d: Float32Array,
  sigma: Float32Array,
  classes: Uint8Array,
  use: Float32Array,
  prior: Float64Array,
  meanLossMm: number,
  leastLossMm: number,
): Float32Array {
  return d.map((value, i) => {
    if (!use[i]) return 0;
    const p = prior[classes[i]];
    const ratio = logRatio(value, sigma[i], meanLossMm, leastLossMm);
    return Math.max(-6, Math.min(12, ratio)) + Math.log(p / (1 - p));
  });
}

/** Mean field: odds_i + β Σ (2 p_j − 1) over the eight neighbours. */
function vote(
  odds: Float32Array,
  use: Float32Array,
  width: number,
  { neighbour, neighbourRounds }: typeof lossDefaults,
): Float32Array {
  const logistic = (x: number): number => 1 / (1 + Math.exp(-x));
  let p = odds.map((value, i) => (use[i] ? logistic(value) : 0.5));
  const offsets = [-width - 1, -width, -width + 1, -1, 1, width - 1, width, width + 1];
  for (let round = 0; round < neighbourRounds; round++) {
    const next = p.slice();
    for (let i = width + 1; i < p.length - width - 1; i++) {
      if (!use[i]) continue;
      let sum = 0;
      for (let k = 0; k < offsets.length; k++) sum += 2 * p[i + offsets[k]] - 1;
      next[i] = logistic(odds[i] + neighbour * sum);
    }
    p = next;
  }
  return p.map((value, i) => (use[i] ? value : 0));
}
