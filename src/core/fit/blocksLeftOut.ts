import {
  blockOf,
  normalRows,
  normalSystems,
  solveDefinite,
  solveSymmetric,
  symmetricSolver,
  tukeyBend,
  type Vec3,
} from '../geometry/index.ts';
import type { IcpOptions, IcpResult } from './icp.ts';
import { fillRow, holdWarp } from './normalEquations.ts';
import { similarityFields } from './similarityFields.ts';
import { warpField, warpParameters } from './warp.ts';

/** Blocks across the face: each holds a letter or two, so that what is worn or filled is so within one block. */
const across = 6;

/** Parameters of a small similarity: turn · R, shift, log size · R. */
export const pose = 7;

/**
 * Covariance of the pose by leaving out blocks of the face in turn (delete-one-group jackknife), each by one step of the joint
 * fit from the whole solution: 7 × 7 over turn · R, shift, log size · R, mm, row-major. The curvature is the derivative of Tukey's
 * weight times residual. What the warp takes up is told in terms of the least-squares similarity, as the pose is.
 */
export function blockSpread(fit: IcpResult, options: IcpOptions): Float64Array {
  const out = new Float64Array(pose * pose);
  for (const step of posesWithoutBlocks(fit, options))
    for (let r = 0; r < pose; r++) for (let c = 0; c < pose; c++) out[r * pose + c] += step[r] * step[c];
  return out;
}

/** Normal equations of one block, or of all: JᵀDJ with D the derivative of weight · residual, and JᵀWr. */
interface System {
  readonly h: Float64Array;
  readonly g: Float64Array;
}

/**
 * The step of the pose that the rest asks for, without each block that holds anything, times √(1 − h): a block of much leverage h
 * (`leverage`) moves the rest by 1/(1 − h) too far. Source: Bell and McCaffrey, Survey Methodology 28, 2002 (from memory), taken
 * along the one direction that the block pulls in.
 */
function posesWithoutBlocks(fit: IcpResult, options: IcpOptions): Float64Array[] {
  const n = fit.parameters;
  const blocks = blockSystems(fit, options);
  const whole = blocks.reduce(plus, { h: new Float64Array(n * n), g: new Float64Array(n) });
  if (options.warp) holdWarp(whole.h, whole.g, fit.bending, n, fit.rmsMm);
  const taken = options.warp ? warpInPose(fit, options) : new Float64Array(0);
  const rest = solveDefinite(whole.h, whole.g, n) ?? new Float64Array(n);
  return blocks.flatMap((block) => {
    if (block.g.every((value) => value === 0)) return [];
    const { h, g } = minus(whole, block);
    const step = solveDefinite(h, g, n) ?? solveSymmetric(h, g, n);
    if (!step) return [];
    const held = Math.sqrt(1 - leverage(whole, block));
    const moved = step.map((value, k) => held * (value - rest[k]));
    return [poseOf(moved, taken, options.scale)];
  });
}

/** Share that a block has in the curvature along the step u = H⁻¹g that it asks for: uᵀH_b u / uᵀg, 0 to 1. */
function leverage(whole: System, block: System): number {
  const n = block.g.length;
  const u = solveDefinite(whole.h, block.g, n);
  if (!u) return 0;
  let own = 0;
  for (let r = 0; r < n; r++) for (let c = 0; c < n; c++) own += u[r] * block.h[r * n + c] * u[c];
  return Math.max(0, Math.min(1, own / dot(u, block.g)));
}

function blockSystems({ pairs, weights, trimMm, parameters: n }: IcpResult, options: IcpOptions): System[] {
  const { moved, normals, residual } = pairs;
  const rows = normalRows(weights.length, n, across ** 2);
  for (let i = 0; i < weights.length; i++) {
    if (!(weights[i] > 0)) continue;
    fillRow(rows.rows, i * rows.stride, moved, normals, 3 * i, options);
    rows.blocks[i] = blockOf(moved[3 * i], moved[3 * i + 1], options.radiusMm, across);
    // The pull is the weight's, the curvature its derivative's.
    rows.curvatures[i] = tukeyBend(residual[i] / trimMm);
    rows.pulls[i] = weights[i] * residual[i];
  }
  return normalSystems(rows, n, across ** 2);
}

const plus = (a: System, b: System): System => ({ h: a.h.map((v, k) => v + b.h[k]), g: a.g.map((v, k) => v + b.g[k]) });
const minus = (a: System, b: System): System => ({
  h: a.h.map((v, k) => v - b.h[k]),
  g: a.g.map((v, k) => v - b.g[k]),
});

/** The similarity nearest to each field of the warp over the points that count: seven numbers a field. */
function warpInPose({ pairs: { moved }, weights }: IcpResult, { radiusMm: R }: IcpOptions): Float64Array {
  const h = new Float64Array(pose * pose);
  const right = Array.from({ length: warpParameters }, () => new Float64Array(pose));
  const motions = new Float64Array(3 * pose);
  const field = new Float64Array(3);
  for (let i = 0; i < weights.length; i++) {
    if (!(weights[i] > 0)) continue;
    const p: Vec3 = [moved[3 * i], moved[3 * i + 1], moved[3 * i + 2]];
    similarityFields(p, R).forEach((motion, r) => void motions.set(motion, 3 * r));
    for (let r = 0; r < pose; r++) addProducts(motions, motions, 3 * r, weights[i], h, r * pose);
    for (let k = 0; k < warpParameters; k++) {
      field.set(warpField(k, p[0] / R, p[1] / R));
      addProducts(motions, field, 0, weights[i], right[k], 0);
    }
  }
  const solve = symmetricSolver(h, pose);
  return Float64Array.from(right.flatMap((g) => [...(solve?.(g) ?? new Float64Array(pose))]));
}

/** Adds Σ w mᵣ · b for each of a point's motions m, b at `k`; written at `at`. */
function addProducts(m: Float64Array, b: Float64Array, k: number, weight: number, out: Float64Array, at: number): void {
  for (let r = 0; r < pose; r++)
    out[at + r] += weight * (m[3 * r] * b[k] + m[3 * r + 1] * b[k + 1] + m[3 * r + 2] * b[k + 2]);
}

const dot = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k] * b[k];
  return sum;
};

function poseOf(step: Float64Array, taken: Float64Array, scale: boolean): Float64Array {
  const first = scale ? pose : pose - 1;
  const out = new Float64Array(pose);
  out.set(step.subarray(0, first));
  for (let k = 0; k < taken.length; k++) out[k % pose] += step[first + Math.floor(k / pose)] * taken[k];
  return out;
}
