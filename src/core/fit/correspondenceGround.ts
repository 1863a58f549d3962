import type { Face } from '../face/index.ts';
import {
  closestOnSurface,
  columnOf,
  erode,
  type HeightGrid,
  newSurfacePoint,
  rotate,
  rowOf,
  type Similarity,
  type SurfaceIndex,
  slopeX,
  slopeY,
  transpose3,
} from '../geometry/index.ts';

/** The surface to fit to. */
export interface Target {
  readonly index: SurfaceIndex;
  /** Reference scan → its face frame, a rigid motion. */
  readonly faceFromScan: Similarity;
  /** The reference's relief map. */
  readonly grid: HeightGrid;
  /** 1 on the cells of `grid` where a pair may end: the face without its margin. */
  readonly inside: Uint8Array;
}

/**
 * The reference prepared for pairing. A margin of its face is left out, since there the rim of a die falls away and
 * the lip of the wax rises: shapes that the other object need not have.
 */
export function pairingTarget(index: SurfaceIndex, face: Face, marginMm: number): Target {
  const grid = face.relief;
  const inside = erode(grid.mask, grid.width, Math.round(marginMm / grid.pitch));
  return { index, faceFromScan: face.faceFromScan, grid, inside };
}

/** Where a point meets the reference: the place less the point, and the surface's normal there; face frame, mm. */
export interface Meeting {
  dx: number;
  dy: number;
  dz: number;
  nx: number;
  ny: number;
  nz: number;
}

/**
 * Looks from a point (x, y, z) with the normal (nx, ny, nz), both in the face frame, for its counterpart within
 * `reachMm` and 60°. Writes it into `out`; false where there is none.
 */
export type Meet = (
  x: number,
  y: number,
  z: number,
  nx: number,
  ny: number,
  nz: number,
  reachMm: number,
  out: Meeting,
) => boolean;

const leastCosine = 0.5;

/** The closest place of the mesh; places on an open edge are no counterpart. */
export function meetClosest(target: Target): Meet {
  const { rotation, translation } = target.faceFromScan;
  const back = transpose3(rotation);
  const foot = newSurfacePoint();
  return (x, y, z, nx, ny, nz, reachMm, out) => {
    const p = rotate(back, [x - translation[0], y - translation[1], z - translation[2]]);
    const d = rotate(back, [nx, ny, nz]);
    if (!closestOnSurface(target.index, p[0], p[1], p[2], reachMm, d[0], d[1], d[2], leastCosine, foot)) return false;
    if (foot.onBorder) return false;
    [out.dx, out.dy, out.dz] = rotate(rotation, [foot.x - p[0], foot.y - p[1], foot.z - p[2]]);
    [out.nx, out.ny, out.nz] = rotate(rotation, [foot.nx, foot.ny, foot.nz]);
    return true;
  };
}

/**
 * The place of the relief map above or below the point: a fiftieth of the cost of the closest one, and as good
 * while the faces are still some tenths of a millimetre apart.
 */
export function meetAlongHeight({ grid, inside }: Target): Meet {
  const { width, height, pitch, z: heights } = grid;
  return (x, y, z, nx, ny, nz, reachMm, out) => {
    const col = Math.round(columnOf(grid, x));
    const row = Math.round(rowOf(grid, y));
    if (col < 1 || row < 1 || col >= width - 1 || row >= height - 1) return false;
    const i = row * width + col;
    if (!(inside[i] && inside[i - 1] && inside[i + 1] && inside[i - width] && inside[i + width])) return false;
    const gx = slopeX(heights, i, pitch);
    const gy = slopeY(heights, i, width, pitch);
    const length = Math.sqrt(gx * gx + gy * gy + 1);
    out.nx = -gx / length;
    out.ny = -gy / length;
    out.nz = 1 / length;
    out.dx = 0;
    out.dy = 0;
    out.dz = heights[i] + gx * (x - grid.left - col * pitch) + gy * (y - grid.top + row * pitch) - z;
    return Math.abs(out.dz) * out.nz < reachMm && nx * out.nx + ny * out.ny + nz * out.nz > leastCosine;
  };
}

/** Whether a pair may end over (x, y). */
export function isInside({ inside, grid }: Target, x: number, y: number): boolean {
  const col = Math.round(columnOf(grid, x));
  const row = Math.round(rowOf(grid, y));
  return col >= 0 && row >= 0 && col < grid.width && row < grid.height && inside[row * grid.width + col] === 1;
}
