import type { Similarity } from '../geometry/index.ts';
import { isInside, type Meet, type Meeting, type Target } from './correspondenceGround.ts';
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

/** Pairs each point, moved and bent (coefficients of the warp, where given), with what it meets of the reference. */
export function pairPoints(
  target: Target,
  meet: Meet,
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
    pairPoint(i, target, meet, points, faceFromSubject, coefficients, reachMm, options, pairs);
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
