import {
  blockOf,
  blocksAcross,
  eigenSymmetric,
  jackknifeCovariance,
  solveDefinite,
  solveSymmetric,
} from '../geometry/index.ts';
import type { IcpOptions, IcpResult } from './icp.ts';
import { addRow, fillRow, holdWarp } from './normalEquations.ts';
import { similarityFields } from './similarityFields.ts';
import type { FreeMotion } from './types.ts';
import { warpField, warpParameters } from './warp.ts';

/** How sure the pose is: about the face's centre, in the reference's face frame. */
export interface PoseUncertainty {
  /** 7 × 7 over (turn x, y, z rad; shift x, y, z mm; log size), row-major. */
  readonly covariance: Float64Array;
  readonly rotationSdDeg: number;
  readonly translationSdMm: number;
  readonly scaleSd: number;
  readonly degenerate: readonly FreeMotion[];
}

/** Directions whose eigenvalue is below this share of the greatest slide almost freely (Gelfand et al. 2003). */
const freeBelow = 2e-4;
const axes: readonly FreeMotion[] = ['turnX', 'turnY', 'turnZ', 'slideX', 'slideY', 'slideZ', 'growth'];

/** Parameters of a small similarity: turn · R, shift, log size · R. */
const pose = 7;

/**
 * Covariance of the pose by leaving out blocks of the face in turn (delete-one-group jackknife), each by one step of the joint
 * fit from the whole solution. Residuals of a seal are no white noise: letters are worn and filled as letters, and wax flows by
 * more than the twelve fields of the warp; σ²H⁻¹ takes them for it and came out half as large as the errors (docs/fit.md).
 * The curvature is the derivative of Tukey's weight times residual. What the warp takes up is told in terms of the least-squares
 * similarity, as the pose is. Free motions: Gelfand, Ikemoto, Rusinkiewicz and Levoy, 3DIM 2003.
 */
export function poseUncertainty(fit: IcpResult, options: IcpOptions): PoseUncertainty {
  const { values, vectors } = eigenSymmetric(leading(fit.hessian, fit.parameters, pose), pose);
  const R = options.radiusMm;
  const unit = [1 / R, 1 / R, 1 / R, 1, 1, 1, 1 / R];
  const covariance = jackknifeCovariance(posesWithoutBlocks(fit, options)).map(
    (value, k) => value * unit[Math.floor(k / pose)] * unit[k % pose],
  );
  const sd = (k: number): number => Math.sqrt(covariance[k * pose + k]);
  return {
    covariance,
    rotationSdDeg: (Math.hypot(sd(0), sd(1), sd(2)) * 180) / Math.PI,
    translationSdMm: Math.hypot(sd(3), sd(4), sd(5)),
    scaleSd: sd(6),
    degenerate: freeMotions(values, vectors),
  };
}

/** Normal equations of one block, or of all: JᵀDJ with D the derivative of weight · residual, and JᵀWr. */
interface System {
  readonly h: Float64Array;
  readonly g: Float64Array;
}

/** The step of the pose that the rest asks for, without each block that holds anything. */
function posesWithoutBlocks(fit: IcpResult, options: IcpOptions): Float64Array[] {
  const n = fit.parameters;
  const blocks = blockSystems(fit, options);
  const whole = blocks.reduce(plus, { h: new Float64Array(n * n), g: new Float64Array(n) });
  if (options.warp) holdWarp(whole.h, whole.g, fit.bending, n, fit.rmsMm);
  const taken = options.warp ? warpInPose(fit, options) : new Float64Array(0);
  return blocks.flatMap((block) => {
    if (block.h[3 * n + 3] + block.h[4 * n + 4] + block.h[5 * n + 5] === 0) return [];
    const { h, g } = minus(whole, block);
    const step = solveDefinite(h, g, n) ?? solveSymmetric(h, g, n);
    return step ? [poseOf(step, taken, options.scale)] : [];
  });
}

function blockSystems({ pairs, weights, trimMm, parameters: n }: IcpResult, options: IcpOptions): System[] {
  const { moved, normals, residual } = pairs;
  const blocks = Array.from({ length: blocksAcross ** 2 }, () => ({
    h: new Float64Array(n * n),
    g: new Float64Array(n),
  }));
  const j = new Float64Array(n);
  for (let i = 0; i < weights.length; i++) {
    if (!(weights[i] > 0)) continue;
    const { h, g } = blocks[blockOf(moved[3 * i], moved[3 * i + 1], options.radiusMm)];
    fillRow(j, moved, normals, 3 * i, options);
    const u = (residual[i] / trimMm) ** 2;
    addRow(h, g, j, (1 - u) * (1 - 5 * u), (residual[i] * (1 - u)) / (1 - 5 * u));
  }
  for (const { h } of blocks) for (let r = 0; r < n; r++) for (let c = 0; c < r; c++) h[c * n + r] = h[r * n + c];
  return blocks;
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
  for (let i = 0; i < weights.length; i++) {
    if (!(weights[i] > 0)) continue;
    const [x, y, z] = [moved[3 * i], moved[3 * i + 1], moved[3 * i + 2]];
    const motions = similarityFields([x, y, z], R);
    for (let r = 0; r < pose; r++) {
      for (let c = 0; c < pose; c++) h[r * pose + c] += weights[i] * dot(motions[r], motions[c]);
      for (let k = 0; k < warpParameters; k++) right[k][r] += weights[i] * dot(motions[r], warpField(k, x / R, y / R));
    }
  }
  return Float64Array.from(right.flatMap((g) => [...(solveSymmetric(h, g, pose) ?? new Float64Array(pose))]));
}

const dot = (a: readonly number[], b: readonly number[]): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

function poseOf(step: Float64Array, taken: Float64Array, scale: boolean): Float64Array {
  const first = scale ? pose : pose - 1;
  const out = new Float64Array(pose);
  out.set(step.subarray(0, first));
  for (let k = 0; k < taken.length; k++) out[k % pose] += step[first + Math.floor(k / pose)] * taken[k];
  return out;
}

function leading(h: Float64Array, size: number, n: number): Float64Array {
  const out = new Float64Array(n * n);
  for (let r = 0; r < n; r++) for (let c = 0; c < n; c++) out[r * n + c] = h[r * size + c];
  return out;
}

/**
 * Names as many motions as there are free directions: those that have the greatest part in them. The directions alone
 * will not do, since any mixture of two free ones is free.
 */
function freeMotions(values: Float64Array, vectors: Float64Array): FreeMotion[] {
  const n = values.length;
  const free = values.filter((value) => value < freeBelow * values[n - 1]).length;
  const part = axes.map((_, r) => vectors.subarray(r * n, r * n + free).reduce((sum, v) => sum + v * v, 0));
  return axes.filter((_, r) => part.filter((other) => other > part[r]).length < free);
}
