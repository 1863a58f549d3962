import {
  compose,
  median,
  rootMeanSquare,
  rotationAbout,
  type Similarity,
  sigmaFromMad,
  solveSymmetric,
} from '../geometry/index.ts';
import { type Meet, meetAlongHeight, meetClosest, type Target } from './correspondenceGround.ts';
import { type PairOptions, type Pairs, pairPoints } from './correspondences.ts';
import type { FacePoints } from './points.ts';
import { warpParameters, warpPriorMm } from './warp.ts';

/** Which motions are free. */
export interface IcpModel {
  readonly scale: boolean;
  readonly warp: boolean;
}

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
  /** Weight of each pair, 0 to 1. */
  readonly weights: Float64Array;
  /** Normal matrix of the last round over (turn x, y, z · R, shift x, y, z, log size · R[, warp…]), row-major. */
  readonly hessian: Float64Array;
  readonly parameters: number;
  readonly converged: boolean;
}

/** Tukey's constant. 4.685 is the textbook's; worn tops and chips are no normal residuals, and 3 met the truth better. */
const tukey = 3;

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

type Weighed = ReturnType<typeof weigh>;

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
  const sigma = Math.max(options.floorMm, sigmaFromMad * (median(someSizes(pairs.residual)) || 0));
  const weights = pairs.residual.map((value) => {
    const t = value / (tukey * sigma);
    return Math.abs(t) < 1 ? (1 - t * t) ** 2 : 0;
  });
  const kept = pairs.residual.map((value, i) => (weights[i] > 0 ? value : Number.NaN));
  const inliers = weights.reduce((sum, w) => sum + (w > 0 ? 1 : 0), 0);
  return { pairs, weights, rmsMm: rootMeanSquare(kept), inlierShare: inliers / weights.length };
}

/**
 * JᵀWJ and JᵀWr. For a point m with normal n: turn ω moves it by ω × m, so the derivative of p · n is (m × n) · ω;
 * the shift's is n, the size's m · n (of which only x and y are used), a warp field's f · n. Turn and size are taken times R, so all are in mm at the rim.
 */
function normalEquations(
  { pairs, weights, rmsMm }: Weighed,
  bending: Float64Array,
  parameters: number,
  options: IcpOptions,
) {
  const { moved, normals, residual } = pairs;
  const h = new Float64Array(parameters * parameters);
  const g = new Float64Array(parameters);
  const j = new Float64Array(parameters);
  for (let i = 0; i < weights.length; i++) {
    if (weights[i] === 0 || Number.isNaN(weights[i])) continue;
    fillRow(j, moved, normals, 3 * i, options);
    addRow(h, g, j, weights[i], residual[i]);
  }
  for (let r = 0; r < parameters; r++) for (let c = 0; c < r; c++) h[c * parameters + r] = h[r * parameters + c];
  if (options.warp) holdWarp(h, g, bending, parameters, rmsMm);
  return { h, g };
}

/** One row's part of JᵀWJ, below the diagonal, and of JᵀWr. */
function addRow(h: Float64Array, g: Float64Array, j: Float64Array, weight: number, residual: number): void {
  const parameters = j.length;
  for (let r = 0, at = 0; r < parameters; r++, at += parameters) {
    const w = weight * j[r];
    g[r] += w * residual;
    for (let c = 0; c <= r; c++) h[at + c] += w * j[c];
  }
}

/**
 * Where half the face is gone, stretch and growth look alike: each warp coefficient is held toward zero as a normal
 * prior would, σ²/σ_k², with the residuals' variance taken as shared by `together` neighbouring points.
 */
function holdWarp(h: Float64Array, g: Float64Array, bending: Float64Array, parameters: number, rmsMm: number): void {
  const first = parameters - warpParameters;
  for (let k = 0; k < warpParameters; k++) {
    const pull = (together * rmsMm ** 2) / warpPriorMm(k) ** 2;
    h[(first + k) * (parameters + 1)] += pull;
    g[first + k] -= pull * bending[k];
  }
}

const together = 40;

function fillRow(j: Float64Array, moved: Float64Array, normals: Float64Array, k: number, options: IcpOptions): void {
  const R = options.radiusMm;
  const [x, y, z] = [moved[k], moved[k + 1], moved[k + 2]];
  const [nx, ny, nz] = [normals[k], normals[k + 1], normals[k + 2]];
  j[0] = (y * nz - z * ny) / R;
  j[1] = (z * nx - x * nz) / R;
  j[2] = (x * ny - y * nx) / R;
  j[3] = nx;
  j[4] = ny;
  j[5] = nz;
  // Size is read in the plane alone: rubbed tops lack height, and would be taken for growth.
  if (options.scale) j[6] = (x * nx + y * ny) / R;
  if (!options.warp) return;
  fillWarp(j, options.scale ? 7 : 6, x / R, y / R, nx, ny, nz);
}

/** Every field of the warp along the normal: `warpField` written out, as `bend` is. */
function fillWarp(j: Float64Array, k: number, u: number, v: number, nx: number, ny: number, nz: number): void {
  const squares = u * u + v * v;
  const difference = u * u - v * v;
  const twice = 2 * u * v;
  j[k] = u * u * nz;
  j[k + 1] = u * v * nz;
  j[k + 2] = v * v * nz;
  j[k + 3] = u * u * u * nz;
  j[k + 4] = u * u * v * nz;
  j[k + 5] = u * v * v * nz;
  j[k + 6] = v * v * v * nz;
  j[k + 7] = u * nx - v * ny;
  j[k + 8] = v * nx + u * ny;
  j[k + 9] = squares * (u * nx + v * ny);
  j[k + 10] = difference * nx + twice * ny;
  j[k + 11] = difference * ny - twice * nx;
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
