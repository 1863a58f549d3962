import type { Face } from '../face/index.ts';
import type { Vec3 } from '../geometry/index.ts';
import {
  apply,
  closestOnSurface,
  columnOf,
  erode,
  type HeightGrid,
  newSurfacePoint,
  rotate,
  rowOf,
  type Similarity,
  type SurfaceIndex,
  transpose3,
} from '../geometry/index.ts';
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
  readonly met: number;
}

/** The surface to fit to. */
export interface Target {
  readonly index: SurfaceIndex;
  /** Reference scan → its face frame, a rigid motion. */
  readonly faceFromScan: Similarity;
  /** The face itself, its margin left out: 1 where a pair may end, on the cells of `grid`. */
  readonly inside: Uint8Array;
  readonly grid: HeightGrid;
}

/**
 * The reference prepared for pairing. A margin of its face is left out, since there the rim of a die falls away and
 * the lip of the wax rises: shapes that the other object need not have.
 */
export function pairingTarget(index: SurfaceIndex, face: Face, marginMm: number): Target {
  const grid = face.relief;
  return {
    index,
    faceFromScan: face.faceFromScan,
    inside: erode(grid.mask, grid.width, Math.round(marginMm / grid.pitch)),
    grid,
  };
}

function isInside({ inside, grid }: Target, x: number, y: number): boolean {
  const col = Math.round(columnOf(grid, x));
  const row = Math.round(rowOf(grid, y));
  return col >= 0 && row >= 0 && col < grid.width && row < grid.height && inside[row * grid.width + col] === 1;
}

const none: Vec3 = [0, 0, 0];

/**
 * Pairs each point with the closest place of the reference within `reachMm` whose normal agrees within 60°.
 * `opposed`: the faces lie against one another, so the subject's outward normal is turned round before it is compared.
 * Places on an open edge are no counterpart. `bending` holds the warp's coefficients over x/radiusMm, y/radiusMm.
 */
export function pairPoints(
  target: Target,
  points: FacePoints,
  faceFromSubject: Similarity,
  bending: Float64Array | undefined,
  radiusMm: number,
  opposed: boolean,
  reachMm: number,
): Pairs {
  const count = points.positions.length / 3;
  const moved = new Float64Array(count * 3);
  const normals = new Float64Array(count * 3);
  const residual = new Float64Array(count).fill(Number.NaN);
  const toScan = { rotation: transpose3(target.faceFromScan.rotation), shift: target.faceFromScan.translation };
  const foot = newSurfacePoint();
  const sign = opposed ? -1 : 1;
  let met = 0;
  for (let i = 0; i < count; i++) {
    const k = 3 * i;
    const p = apply(faceFromSubject, [points.positions[k], points.positions[k + 1], points.positions[k + 2]]);
    moved.set(p, k);
    if (!isInside(target, p[0], p[1])) continue;
    const [wx, wy, wz] = bending ? bend(bending, p[0] / radiusMm, p[1] / radiusMm) : none;
    const n = rotate(faceFromSubject.rotation, [points.normals[k], points.normals[k + 1], points.normals[k + 2]]);
    const nx = sign * n[0];
    const ny = sign * n[1];
    const nz = sign * n[2];
    const [sx, sy, sz] = toScan.shift;
    const [x, y, z] = rotate(toScan.rotation, [p[0] + wx - sx, p[1] + wy - sy, p[2] + wz - sz]);
    const d = rotate(toScan.rotation, [nx, ny, nz]);
    if (!closestOnSurface(target.index, x, y, z, reachMm, d[0], d[1], d[2], 0.5, foot) || foot.onBorder) continue;
    const q = rotate(target.faceFromScan.rotation, [foot.x - x, foot.y - y, foot.z - z]);
    const m = rotate(target.faceFromScan.rotation, [foot.nx, foot.ny, foot.nz]);
    const [ax, ay, az] = [m[0] + nx, m[1] + ny, m[2] + nz];
    const length = Math.sqrt(ax * ax + ay * ay + az * az);
    normals[k] = ax / length;
    normals[k + 1] = ay / length;
    normals[k + 2] = az / length;
    residual[i] = (q[0] * ax + q[1] * ay + q[2] * az) / length;
    met++;
  }
  return { moved, normals, residual, met };
}
