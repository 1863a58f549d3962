import {
  gaussianFilter,
  type HeightGrid,
  median,
  type Similarity,
  sigmaFromMad,
  tukeyWeight,
  withHeights,
} from '../geometry/index.ts';
import { localSpread, mostAgreed } from './agreement.ts';
import { type Ground, laidOn, withMeanCurvature } from './commonGrid.ts';
import { noiseByClass, sigmaMap } from './noise.ts';
import {
  allTerms,
  bareDifference,
  formTerms,
  motionOf,
  motionTerms,
  moved,
  type Nuisance,
  noNuisance,
  type Solved,
  solveTerms,
} from './nuisance.ts';
import { cutoffOf } from './scales.ts';
import type { ChangeSide } from './types.ts';

export const registerDefaults = {
  /** Rounds with motion alone, from wherever the fit left it, then with bending and bluntness too. */
  firstRounds: 5,
  /** The same where it was registered before. */
  againRounds: 1,
  rounds: 6,
  /** Tukey's constant for a cell, and for the mean about it. */
  tukey: 4.685,
  /** The mean about a cell that tells a changed place from a noisy one, standard deviation, mm. */
  aboutMm: 0.8,
  /** Waves that no motion takes up widen the noise of that mean to this share of its own spread at least. */
  waveShare: 0.3,
  /** Steps smaller than this at the rim end the rounds, mm. */
  enoughMm: 1e-4,
};

/** The later laid on the earlier by what did not change. */
export interface Registered {
  /** Earlier's face frame ← later's scan; its scale is how much the later had to be grown. */
  readonly faceFromLater: Similarity;
  readonly nuisance: Nuisance;
  /** Later less earlier, nuisance taken off, mm; the mask is where both have a surface worth comparing. */
  readonly difference: HeightGrid;
  /** Noise of each cell, mm. */
  readonly sigma: Float32Array;
  readonly solved: Solved | null;
  /** The ground with the curvature of both dates' mean: of the earlier's alone its noise would pass for bluntness. */
  readonly ground: Ground;
  /** Share of the weight that was kept. */
  readonly kept: number;
}

/**
 * Iterated least squares of the height difference over motion, size, bending and bluntness, on what did not change:
 * weights 1/σ² by class of roughness, Tukey's of each cell, and Tukey's of the mean about it, so that a place that is a
 * little lower as a whole has no say although each of its cells is within the noise. `changed`: cells that have no say.
 */
export function register(
  ground: Ground,
  later: ChangeSide,
  start: Similarity,
  changed: Uint8Array | null,
  options = registerDefaults,
): Registered {
  let faceFromLater = start;
  let nuisance = noNuisance;
  let state = look(ground, later, faceFromLater, nuisance, changed);
  if (!changed) {
    const agreed = mostAgreed(state.ground, state.raw, state.sigma);
    faceFromLater = moved(motionOf(agreed, ground.radiusMm), faceFromLater);
    state = look(ground, later, faceFromLater, nuisance, changed);
  }
  let solved: Solved | null = null;
  let kept = 1;
  const first = changed ? options.againRounds : options.firstRounds;
  for (let round = 0; round < first + options.rounds; round++) {
    const all = round >= first;
    const weighed = weigh(state, changed, options);
    kept = weighed.kept;
    solved = solveTerms(state.ground, state.raw.z, weighed.weights, all ? allTerms : motionTerms);
    if (!solved) break;
    faceFromLater = moved(motionOf(solved.terms, ground.radiusMm), faceFromLater);
    if (all)
      nuisance = {
        form: solved.terms.slice(motionTerms, motionTerms + formTerms),
        blunt: solved.terms[allTerms - 1],
      };
    state = look(ground, later, faceFromLater, nuisance, changed);
    const step = Math.max(...solved.terms.subarray(0, motionTerms).map(Math.abs));
    if (all && step < options.enoughMm) break;
    if (!all && step < 10 * options.enoughMm) round = Math.max(round, first - 1);
  }
  const { bare: difference, sigma } = state;
  return { faceFromLater, nuisance, difference, sigma, solved, kept, ground: state.ground };
}

type Looked = ReturnType<typeof look>;

function look(
  bare0: Ground,
  { mesh }: ChangeSide,
  faceFromLater: Similarity,
  nuisance: Nuisance,
  changed: Uint8Array | null,
) {
  const later = laidOn(bare0, mesh, faceFromLater);
  const ground = withMeanCurvature(bare0, later);
  const mask = later.mask.map((m, i) => m & ground.sound[i]);
  const grid = withHeights(later, later.z, mask);
  const bare = withHeights(grid, bareDifference(ground, grid, nuisance), mask);
  const raw = withHeights(grid, bareDifference(ground, grid, noNuisance), mask);
  const noise = noiseByClass(ground.roughness, bare.z, (i) => mask[i] === 1 && !changed?.[i]);
  return { ground, bare, raw, sigma: sigmaMap(ground.roughness, mask, noise) };
}

function weigh({ bare, sigma }: Looked, changed: Uint8Array | null, options: typeof registerDefaults) {
  const { aboutMm, tukey, waveShare } = options;
  const about = gaussianFilter(bare, cutoffOf(aboutMm));
  const spread = sigmaFromMad * median(about.z.map(Math.abs).filter((_, i) => bare.mask[i] === 1));
  const usual = Math.max(localSpread(about, aboutMm), waveShare * (spread || 0), 1e-6);
  const weights = new Float32Array(sigma.length);
  let [kept, all] = [0, 0];
  for (let i = 0; i < weights.length; i++) {
    if (!bare.mask[i] || !(sigma[i] > 0) || changed?.[i]) continue;
    const one = tukeyWeight(bare.z[i] / (tukey * sigma[i]));
    const place = tukeyWeight(about.z[i] / (tukey * usual));
    weights[i] = (one * place) / sigma[i] ** 2;
    kept += one * place;
    all++;
  }
  return { weights, kept: all > 0 ? kept / all : 0 };
}
