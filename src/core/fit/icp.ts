import {
  compose,
  median,
  rootMeanSquare,
  rotationAbout,
  type Similarity,
  sigmaFromMad,
  solveSymmetric,
  tukeyWeight,
} from '../geometry/index.ts';
import { type Meet, meetAlongHeight, meetClosest, type Target } from './correspondenceGround.ts';
import { type PairOptions, type Pairs, pairPoints } from './correspondences.ts';
import { type IcpModel, normalEquations } from './normalEquations.ts';
import type { FacePoints } from './points.ts';
import { warpParameters } from './warp.ts';

export interface IcpOptions extends IcpModel, PairOptions {
  /** Counterparts along the height of the relief map, for the first rounds, or the closest places of the mesh. */
  readonly meeting: 'alongHeight' | 'closest';
  /** Greatest distance of a pair, mm, from the first round to the last. */
  readonly reachMm: readonly [number, number];
  readonly rounds: number;
  /** Residuals below this, mm, are never trimmed: the noise of the pair. */
  readonly floorMm: number;
}

export interface IcpResult {
  /** Reference face ← subject face. */
  readonly motion: Similarity;
  /** Coefficients of the smooth warp, mm; all 0 where it is not free. */
  readonly bending: Float64Array;
  /** Root mean square of the residuals that kept weight, mm. */
  readonly rmsMm: number;
  /** Share of the points that were paired and kept weight. */
  readonly inlierShare: number;
  readonly pairs: Pairs;
  /** Weight of each pair, 0 to 1: Tukey's, (1 − (r/trimMm)²)². */
  readonly weights: Float64Array;
  /** Residuals from here on have no weight, mm. */
  readonly trimMm: number;
  /** Normal matrix of the last round over (turn x, y, z · R, shift x, y, z, log size · R[, warp…]), row-major. */
  readonly hessian: Float64Array;
  readonly parameters: number;
  readonly converged: boolean;
}

/**
 * Iterative closest point with the symmetric point-to-plane objective (Rusinkiewicz, ACM TOG 38(4), 2019):
 * minimises Σ w ((q − p) · (n_p + n_q))² over a small turn, shift, and, if free, size and smooth warp, with Tukey's
 * weights on residuals over their robust σ. The reach of the pairs narrows round by round. Stops when a step moves
 * the rim by less than half a micrometre.
 */
export function icp(
  target: Target,
  points: FacePoints,
  start: Similarity,
  options: IcpOptions,
  bendingStart?: Float64Array,
): IcpResult {
  const parameters = 6 + (options.scale ? 1 : 0) + (options.warp ? warpParameters : 0);
  let motion = start;
  let bending = bendingStart ?? new Float64Array(warpParameters);
  const meet = options.meeting === 'closest' ? meetClosest : meetAlongHeight;
  let state = weigh(target, meet, points, motion, bending, options, options.reachMm[0]);
  let converged = false;
  let system = normalEquations(state, bending, parameters, options);
  for (let round = 0; round < options.rounds && !converged; round++) {
    const step = solveSymmetric(system.h, system.g, parameters);
    if (!step) break;
    motion = compose(smallMotion(step, options), motion);
    if (options.warp) bending = bending.map((value, k) => value + step[parameters - warpParameters + k]);
    state = weigh(target, meet, points, motion, bending, options, reachAt(options, round + 1));
    system = normalEquations(state, bending, parameters, options);
    converged = round > 3 && step.every((value) => Math.abs(value) < 5e-4);
  }
  return { motion, bending, ...state, hessian: system.h, parameters, converged };
}

/** |r| of every so-manyth pair: a thousand settle a median well enough. */
function someSizes(residual: Float64Array): Float64Array {
  const step = Math.max(1, Math.floor(residual.length / 1000));
  return Float64Array.from({ length: Math.ceil(residual.length / step) }, (_, k) => Math.abs(residual[k * step]));
}

/** Reach at a round: from the first to the last by equal factors over the first half of the rounds. */
function reachAt({ reachMm: [first, last], rounds }: IcpOptions, round: number): number {
  const t = Math.min(1, round / (rounds / 2));
  return first * (last / first) ** t;
}

/** Tukey's constant. 4.685 is the textbook's; worn tops and chips are no normal residuals, and 3 met the truth better. */
const tukey = 3;

function weigh(
  target: Target,
  meet: Meet,
  points: FacePoints,
  motion: Similarity,
  bending: Float64Array,
  options: IcpOptions,
  reachMm: number,
) {
  const pairs = pairPoints(target, meet, points, motion, options.warp ? bending : undefined, reachMm, options);
  const trimMm = tukey * Math.max(options.floorMm, sigmaFromMad * (median(someSizes(pairs.residual)) || 0));
  const weights = pairs.residual.map((value) => tukeyWeight(value / trimMm));
  const kept = pairs.residual.map((value, i) => (weights[i] > 0 ? value : Number.NaN));
  const inliers = weights.reduce((sum, w) => sum + (w > 0 ? 1 : 0), 0);
  return { pairs, weights, trimMm, rmsMm: rootMeanSquare(kept), inlierShare: inliers / weights.length };
}

function smallMotion(step: Float64Array, options: IcpOptions): Similarity {
  const R = options.radiusMm;
  const angle = Math.hypot(step[0], step[1], step[2]) / R;
  const axis =
    angle > 0 ? ([step[0] / (angle * R), step[1] / (angle * R), step[2] / (angle * R)] as const) : ([0, 0, 1] as const);
  return {
    scale: options.scale ? Math.exp(step[6] / R) : 1,
    rotation: rotationAbout(axis, angle),
    translation: [step[3], step[4], step[5]],
  };
}
