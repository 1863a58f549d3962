import type { Similarity, Vec3 } from '../geometry/index.ts';
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
  const side = opposed ? -1 : 1;
  const { scale: s, rotation: r, translation: t } = faceFromSubject;
  const { positions: from, normals: turning } = points;
  for (let i = 0; i < count; i++) {
    const k = 3 * i;
    // Written out: a tuple a point is what `apply` and `rotate` would leave to be collected.
    const x = s * (r[0] * from[k] + r[1] * from[k + 1] + r[2] * from[k + 2]) + t[0];
    const y = s * (r[3] * from[k] + r[4] * from[k + 1] + r[5] * from[k + 2]) + t[1];
    const z = s * (r[6] * from[k] + r[7] * from[k + 1] + r[8] * from[k + 2]) + t[2];
    moved[k] = x;
    moved[k + 1] = y;
    moved[k + 2] = z;
    if (!isInside(target, x, y)) continue;
    const w = bending ? bend(bending, x / radiusMm, y / radiusMm) : none;
    const nx = side * (r[0] * turning[k] + r[1] * turning[k + 1] + r[2] * turning[k + 2]);
    const ny = side * (r[3] * turning[k] + r[4] * turning[k + 1] + r[5] * turning[k + 2]);
    const nz = side * (r[6] * turning[k] + r[7] * turning[k + 1] + r[8] * turning[k + 2]);
    if (!meet(x + w[0], y + w[1], z + w[2], nx, ny, nz, reachMm, met)) continue;
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
