import { type ClosestPlaces, type Pairing, pairingKernel } from '../../kernels/index.ts';
import type { Similarity, SurfaceIndex } from '../geometry/index.ts';
import {
  closestFacing,
  isInside,
  type Meet,
  type Meeting,
  type MeetName,
  meets,
  type Target,
} from './correspondenceGround.ts';
import type { FacePoints } from './points.ts';
import { bend, warpParameters } from './warp.ts';

/** Where the subject's points lie now and what they meet, in the reference's face frame. */
export interface Pairs {
  /** Moved points before the warp, xyz. */
  readonly moved: Float64Array;
  /** Symmetric normal n_p + n_q, unit length, xyz. */
  readonly normals: Float64Array;
  /** (q − p) · n, mm: how far the reference lies beyond the moved and warped point. NaN where nothing was met. */
  readonly residual: Float64Array;
}

/** How the subject's points are moved and compared. */
export interface PairOptions {
  /** The faces lie against one another: the subject's outward normal is turned round before it is compared. */
  readonly opposed: boolean;
  /** Normalises x and y for the warp, mm. */
  readonly radiusMm: number;
}

/**
 * Pairs each point, moved and bent (coefficients of the warp, where given), with what it meets of the reference. By a compiled kernel where the
 * engine lets it run, which gives the same numbers as `pairPlainly`.
 */
export function pairPoints(
  target: Target,
  meeting: MeetName,
  points: FacePoints,
  faceFromSubject: Similarity,
  bending: Float64Array | undefined,
  reachMm: number,
  options: PairOptions,
): Pairs {
  const { opposed, radiusMm } = options;
  const motion = { ...faceFromSubject, bending: bending ?? noBending, side: opposed ? -1 : 1, radiusMm, reachMm };
  const closest: ClosestPlaces = (questions, answers) => closestPlaces(target.index, reachMm, questions, answers);
  return (
    kernelOf(target)?.(points, motion, meeting === 'closest' ? closest : undefined) ??
    pairPlainly(target, meeting, points, faceFromSubject, bending, reachMm, options)
  );
}

/** Kernels of the targets that were asked already; they go when their target goes. */
const kernels = new WeakMap<Target, Pairing | null>();

function kernelOf(target: Target): Pairing | null {
  const known = kernels.get(target);
  if (known !== undefined) return known;
  const made = pairingKernel(target);
  kernels.set(target, made);
  return made;
}

function closestPlaces(index: SurfaceIndex, reachMm: number, questions: Float64Array, answers: Float64Array): void {
  answers.fill(Number.NaN);
  for (let k = 0; k < questions.length; k += 6)
    if (!Number.isNaN(questions[k])) answerOne(index, reachMm, questions, answers, k);
}

/** A function of its own, so that the engine compiles it once. */
function answerOne(index: SurfaceIndex, reachMm: number, q: Float64Array, answers: Float64Array, k: number): void {
  const place = closestFacing(index, q[k], q[k + 1], q[k + 2], q[k + 3], q[k + 4], q[k + 5], reachMm);
  if (!place) return;
  answers[k] = place.x;
  answers[k + 1] = place.y;
  answers[k + 2] = place.z;
  answers[k + 3] = place.nx;
  answers[k + 4] = place.ny;
  answers[k + 5] = place.nz;
}

/** The kernel's referee. */
export function pairPlainly(
  target: Target,
  meeting: MeetName,
  points: FacePoints,
  faceFromSubject: Similarity,
  bending: Float64Array | undefined,
  reachMm: number,
  options: PairOptions,
): Pairs {
  const count = points.positions.length / 3;
  const pairs: Pairs = {
    moved: new Float64Array(count * 3),
    normals: new Float64Array(count * 3),
    residual: new Float64Array(count).fill(Number.NaN),
  };
  const coefficients = bending ?? noBending;
  for (let i = 0; i < count; i++)
    pairPoint(i, target, meets[meeting], points, faceFromSubject, coefficients, reachMm, options, pairs);
  return pairs;
}

const noBending = new Float64Array(warpParameters);
const met: Meeting = { dx: 0, dy: 0, dz: 0, nx: 0, ny: 0, nz: 0 };

/** A function of its own, so that the engine compiles it once, and not each loop that it stands in. Tuples are written out. */
function pairPoint(
  i: number,
  target: Target,
  meet: Meet,
  { positions: from, normals: turning }: FacePoints,
  { scale: s, rotation: r, translation: t }: Similarity,
  bending: Float64Array,
  reachMm: number,
  { opposed, radiusMm }: PairOptions,
  { moved, normals, residual }: Pairs,
): void {
  const side = opposed ? -1 : 1;
  const k = 3 * i;
  const x = s * (r[0] * from[k] + r[1] * from[k + 1] + r[2] * from[k + 2]) + t[0];
  const y = s * (r[3] * from[k] + r[4] * from[k + 1] + r[5] * from[k + 2]) + t[1];
  const z = s * (r[6] * from[k] + r[7] * from[k + 1] + r[8] * from[k + 2]) + t[2];
  moved[k] = x;
  moved[k + 1] = y;
  moved[k + 2] = z;
  if (!isInside(target, x, y)) return;
  const w = bend(bending, x / radiusMm, y / radiusMm);
  const nx = side * (r[0] * turning[k] + r[1] * turning[k + 1] + r[2] * turning[k + 2]);
  const ny = side * (r[3] * turning[k] + r[4] * turning[k + 1] + r[5] * turning[k + 2]);
  const nz = side * (r[6] * turning[k] + r[7] * turning[k + 1] + r[8] * turning[k + 2]);
  if (!meet(target, x + w[0], y + w[1], z + w[2], nx, ny, nz, reachMm, met)) return;
  const ax = met.nx + nx;
  const ay = met.ny + ny;
  const az = met.nz + nz;
  const length = Math.sqrt(ax * ax + ay * ay + az * az);
  normals[k] = ax / length;
  normals[k + 1] = ay / length;
  normals[k + 2] = az / length;
  residual[i] = (met.dx * ax + met.dy * ay + met.dz * az) / length;
}
