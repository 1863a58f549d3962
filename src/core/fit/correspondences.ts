import { apply, rotate, type Similarity, type Vec3 } from '../geometry/index.ts';
import { isInside, type Meet, type Meeting, type Target } from './correspondenceGround.ts';
import type { FacePoints } from './points.ts';
import { bend } from './warp.ts';

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

const none: Vec3 = [0, 0, 0];

/** Pairs each point, moved and bent (coefficients of the warp, where given), with what it meets of the reference. */
export function pairPoints(
  target: Target,
  meet: Meet,
  points: FacePoints,
  faceFromSubject: Similarity,
  bending: Float64Array | undefined,
  reachMm: number,
  { opposed, radiusMm }: PairOptions,
): Pairs {
  const count = points.positions.length / 3;
  const moved = new Float64Array(count * 3);
  const normals = new Float64Array(count * 3);
  const residual = new Float64Array(count).fill(Number.NaN);
  const met: Meeting = { dx: 0, dy: 0, dz: 0, nx: 0, ny: 0, nz: 0 };
  const sign = opposed ? -1 : 1;
  for (let i = 0; i < count; i++) {
    const k = 3 * i;
    const p = apply(faceFromSubject, [points.positions[k], points.positions[k + 1], points.positions[k + 2]]);
    moved.set(p, k);
    if (!isInside(target, p[0], p[1])) continue;
    const w = bending ? bend(bending, p[0] / radiusMm, p[1] / radiusMm) : none;
    const n = rotate(faceFromSubject.rotation, [points.normals[k], points.normals[k + 1], points.normals[k + 2]]);
    const nx = sign * n[0];
    const ny = sign * n[1];
    const nz = sign * n[2];
    if (!meet(p[0] + w[0], p[1] + w[1], p[2] + w[2], nx, ny, nz, reachMm, met)) continue;
    const ax = met.nx + nx;
    const ay = met.ny + ny;
    const az = met.nz + nz;
    const length = Math.sqrt(ax * ax + ay * ay + az * az);
    normals[k] = ax / length;
    normals[k + 1] = ay / length;
    normals[k + 2] = az / length;
    residual[i] = (met.dx * ax + met.dy * ay + met.dz * az) / length;
  }
  return { moved, normals, residual };
}
