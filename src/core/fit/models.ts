import { apply, compose, invert, rootMeanSquare, type Similarity } from '../geometry/index.ts';
import type { MeetName, Target } from './correspondenceGround.ts';
import { pairPoints } from './correspondences.ts';
import { type IcpOptions, type IcpResult, icp } from './icp.ts';
import type { FacePoints } from './points.ts';
import { leastSquaresMotions } from './procrustes.ts';
import type { Warp } from './types.ts';
import { applyWarp, bentPoints } from './warp.ts';

/** One of the three models, in face frames: reference face ← subject face. */
export interface FaceModel {
  readonly motion: Similarity;
  readonly warp?: Warp;
  readonly rmsMm: number;
  readonly heldOutRmsMm: number;
}

export interface ThreeModels {
  readonly rigid: FaceModel;
  readonly oneScale: FaceModel;
  readonly smoothWarp: FaceModel & { readonly warp: Warp; readonly warpRmsMm: number };
  /** The joint fit of similarity and warp that all three come from. */
  readonly joint: IcpResult;
}

/**
 * Rigid, one scale and smooth warp, all from one joint fit of a similarity and a warp.
 *
 * Fitting a similarity alone by point-to-plane residuals lets a bent face pull its size: bending out of the plane is
 * paid for by growth on the flanks. So the warp is fitted along, and the similarity is then the least-squares one
 * between the points and where the joint fit puts them; the warp is what is left. docs/fit.md has the numbers of both.
 */
export function threeModels(
  target: Target,
  points: FacePoints,
  joint: IcpResult,
  options: IcpOptions,
  mirrored: boolean,
): ThreeModels {
  const parts = split(points, joint, options, mirrored);
  const heldOut = heldOutResiduals(target, points, joint, options, mirrored);
  const rms = (motion: Similarity, warp?: Warp): number =>
    rootMeanSquare(residualsUnder(target, 'closest', points, motion, warp, options, joint.weights));
  return {
    rigid: { motion: parts.rigid, rmsMm: rms(parts.rigid), heldOutRmsMm: heldOut.rigid },
    oneScale: { motion: parts.oneScale, rmsMm: rms(parts.oneScale), heldOutRmsMm: heldOut.oneScale },
    smoothWarp: {
      motion: parts.oneScale,
      warp: parts.warp,
      rmsMm: joint.rmsMm,
      heldOutRmsMm: heldOut.smoothWarp,
      warpRmsMm: warpSize(points, joint.weights, parts.oneScale, parts.warp),
    },
    joint,
  };
}

/** The similarities nearest to the joint fit over the points that count, and the warp that remains. */
function split(points: FacePoints, joint: IcpResult, { radiusMm }: IcpOptions, mirrored: boolean) {
  const to = bentPoints(joint.pairs.moved, joint.bending, radiusMm);
  const { rigid, oneScale } = leastSquaresMotions(points.positions, to, joint.weights, mirrored);
  const warp: Warp = { before: compose(joint.motion, invert(oneScale)), radiusMm, coefficients: joint.bending };
  return { oneScale, rigid, warp };
}

/** Residuals of the points that have weight, mm; NaN for the others. */
function residualsUnder(
  target: Target,
  meeting: MeetName,
  points: FacePoints,
  motion: Similarity,
  warp: Warp | undefined,
  options: IcpOptions,
  weights: ArrayLike<number>,
): Float64Array {
  const whole = warp ? compose(warp.before, motion) : motion;
  const reachMm = 2 * options.reachMm[1];
  const { residual } = pairPoints(target, meeting, points, whole, warp?.coefficients, reachMm, options);
  return residual.map((value, i) => (weights[i] > 0 ? value : Number.NaN));
}

/**
 * Residuals of blocks of the face under models that never saw them: the face is cut into 4 × 4 blocks, the dark and
 * the light fields of the chessboard are each fitted alone and judged on the other. Counterparts lie along the height:
 * the three are only compared with one another.
 */
function heldOutResiduals(
  target: Target,
  points: FacePoints,
  joint: IcpResult,
  options: IcpOptions,
  mirrored: boolean,
) {
  const sums = { rigid: [] as number[], oneScale: [] as number[], smoothWarp: [] as number[] };
  for (const colour of [0, 1]) {
    const inside = chessboard(joint, options.radiusMm, colour);
    const seen = subset(points, inside);
    const fit = icp(
      target,
      seen,
      joint.motion,
      { ...options, meeting: 'alongHeight', rounds: 3, reachMm: [options.reachMm[1], options.reachMm[1]] },
      joint.bending,
    );
    const parts = split(seen, fit, options, mirrored);
    const unseen = joint.weights.map((w, i) => (inside[i] === 1 ? 0 : w));
    sums.rigid.push(...kept(residualsUnder(target, 'alongHeight', points, parts.rigid, undefined, options, unseen)));
    sums.oneScale.push(
      ...kept(residualsUnder(target, 'alongHeight', points, parts.oneScale, undefined, options, unseen)),
    );
    sums.smoothWarp.push(
      ...kept(residualsUnder(target, 'alongHeight', points, parts.oneScale, parts.warp, options, unseen)),
    );
  }
  return {
    rigid: rootMeanSquare(sums.rigid),
    oneScale: rootMeanSquare(sums.oneScale),
    smoothWarp: rootMeanSquare(sums.smoothWarp),
  };
}

const kept = (values: Float64Array): Float64Array => values.filter((value) => !Number.isNaN(value));

function chessboard(joint: IcpResult, radiusMm: number, colour: number): Uint8Array {
  const { moved } = joint.pairs;
  const side = radiusMm / 2;
  const inside = new Uint8Array(moved.length / 3);
  for (let i = 0; i < inside.length; i++) {
    const field = Math.floor(moved[3 * i] / side) + Math.floor(moved[3 * i + 1] / side);
    inside[i] = ((field % 2) + 2) % 2 === colour ? 1 : 0;
  }
  return inside;
}

const subset = (points: FacePoints, keep: Uint8Array): FacePoints => ({
  positions: picked(points.positions, keep),
  normals: picked(points.normals, keep),
});

/** The triples that are kept. */
function picked(values: Float64Array, keep: Uint8Array): Float64Array {
  const out = new Float64Array(values.length);
  let n = 0;
  for (let i = 0; i < keep.length; i++) if (keep[i]) for (let k = 3 * i; k < 3 * i + 3; k++) out[n++] = values[k];
  return out.slice(0, n);
}

/** Root mean square displacement by the warp over the points that count, mm. */
function warpSize(points: FacePoints, weights: Float64Array, motion: Similarity, warp: Warp): number {
  let [sum, n] = [0, 0];
  for (let i = 0; i < weights.length; i++) {
    if (!(weights[i] > 0)) continue;
    const p = apply(motion, [points.positions[3 * i], points.positions[3 * i + 1], points.positions[3 * i + 2]]);
    const q = applyWarp(warp, p);
    sum += (q[0] - p[0]) ** 2 + (q[1] - p[1]) ** 2 + (q[2] - p[2]) ** 2;
    n++;
  }
  return n > 0 ? Math.sqrt(sum / n) : 0;
}
