import {
  compose,
  median,
  rotationAbout,
  type Similarity,
  sigmaFromMad,
  solveSymmetric,
  tukeyWeight,
} from '../geometry/index.ts';
import type { MeetName, Target } from './correspondenceGround.ts';
import { type PairOptions, type Pairs, pairPoints } from './correspondences.ts';
import { type IcpModel, normalEquations } from './normalEquations.ts';
import type { FacePoints } from './points.ts';
import { warpParameters } from './warp.ts';

export interface IcpOptions extends IcpModel, PairOptions {
  /** Counterparts along the height for the first rounds. */
  readonly meeting: MeetName;
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
  let state = weigh(target, points, motion, bending, options, options.reachMm[0]);
  let converged = false;
  let system = normalEquations(state, bending, parameters, options);
  for (let round = 0; round < options.rounds && !converged; round++) {
    const step = solveSymmetric(system.h, system.g, parameters);
    if (!step) break;
    motion = compose(smallMotion(step, options), motion);
    if (options.warp) bending = bending.map((value, k) => value + step[parameters - warpParameters + k]);
    state = weigh(target, points, motion, bending, options, reachAt(options, round + 1));
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
  points: FacePoints,
  motion: Similarity,
  bending: Float64Array,
  options: IcpOptions,
  reachMm: number,
) {
  const { meeting, warp } = options;
  const pairs = pairPoints(target, meeting, points, motion, warp ? bending : undefined, reachMm, options);
  const trimMm = tukey * Math.max(options.floorMm, sigmaFromMad * (median(someSizes(pairs.residual)) || 0));
  return { pairs, trimMm, ...weightsOf(pairs.residual, trimMm) };
}

function weightsOf(residual: Float64Array, trimMm: number) {
  const weights = new Float64Array(residual.length);
  let squares = 0;
  let inliers = 0;
  for (let i = 0; i < residual.length; i++) {
    const w = tukeyWeight(residual[i] / trimMm);
    weights[i] = w;
    if (!(w > 0)) continue;
    squares += residual[i] * residual[i];
    inliers++;
  }
  return { weights, rmsMm: Math.sqrt(squares / inliers), inlierShare: inliers / residual.length };
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
