import type { Face } from '../face/index.ts';
import {
  closestOnSurface,
  columnOf,
  erode,
  type HeightGrid,
  newSurfacePoint,
  rowOf,
  type Similarity,
  type SurfaceIndex,
  type SurfacePoint,
  slopeX,
  slopeY,
} from '../geometry/index.ts';
import { printedHeights } from './points.ts';

/** The surface to fit to. */
export interface Target {
  readonly index: SurfaceIndex;
  /** Reference scan → its face frame, a rigid motion. */
  readonly faceFromScan: Similarity;
  /** The reference's heights where its image is. */
  readonly grid: HeightGrid;
  /** 1 on the cells of `grid` where a pair may end: the image without its margin. */
  readonly inside: Uint8Array;
}

/**
 * The reference prepared for pairing. A margin of its image is left out, since there the rim of a die falls away and
 * the lip of the wax rises: shapes that the other object need not have.
 */
export function pairingTarget(
  index: SurfaceIndex,
  face: Pick<Face, 'faceFromScan' | 'relief' | 'image'>,
  marginMm: number,
): Target {
  const grid = printedHeights(face);
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
  target: Target,
  x: number,
  y: number,
  z: number,
  nx: number,
  ny: number,
  nz: number,
  reachMm: number,
  out: Meeting,
) => boolean;

/** 60°; the same number stands in the kernel. */
const leastCosine = 0.5;

/** The last answer: a search near it is faster, and its own answer does not depend on where it starts. */
const foot = newSurfacePoint();

/**
 * The closest place of the mesh that faces as the normal does, good until the next is asked; null where there is none, or where it lies on an open
 * edge: that is no counterpart.
 */
export const closestFacing = (
  index: SurfaceIndex,
  x: number,
  y: number,
  z: number,
  nx: number,
  ny: number,
  nz: number,
  reachMm: number,
): Readonly<SurfacePoint> | null =>
  closestOnSurface(index, x, y, z, reachMm, nx, ny, nz, leastCosine, foot) && !foot.onBorder ? foot : null;

/** The closest place of the mesh. Written out: it is asked for every point of every round. */
export const meetClosest: Meet = ({ index, faceFromScan }, x, y, z, nx, ny, nz, reachMm, out) => {
  const { rotation: r, translation: t } = faceFromScan;
  const dx = x - t[0];
  const dy = y - t[1];
  const dz = z - t[2];
  const px = r[0] * dx + r[3] * dy + r[6] * dz;
  const py = r[1] * dx + r[4] * dy + r[7] * dz;
  const pz = r[2] * dx + r[5] * dy + r[8] * dz;
  const towardX = r[0] * nx + r[3] * ny + r[6] * nz;
  const towardY = r[1] * nx + r[4] * ny + r[7] * nz;
  const towardZ = r[2] * nx + r[5] * ny + r[8] * nz;
  const place = closestFacing(index, px, py, pz, towardX, towardY, towardZ, reachMm);
  if (!place) return false;
  const qx = place.x - px;
  const qy = place.y - py;
  const qz = place.z - pz;
  out.dx = r[0] * qx + r[1] * qy + r[2] * qz;
  out.dy = r[3] * qx + r[4] * qy + r[5] * qz;
  out.dz = r[6] * qx + r[7] * qy + r[8] * qz;
  out.nx = r[0] * place.nx + r[1] * place.ny + r[2] * place.nz;
  out.ny = r[3] * place.nx + r[4] * place.ny + r[5] * place.nz;
  out.nz = r[6] * place.nx + r[7] * place.ny + r[8] * place.nz;
  return true;
};

/**
 * The place of the relief map above or below the point: a fiftieth of the cost of the closest one, and as good
 * while the faces are still some tenths of a millimetre apart.
 */
export const meetAlongHeight: Meet = ({ grid, inside }, x, y, z, nx, ny, nz, reachMm, out) => {
  const { width, height, pitch, z: heights } = grid;
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

/** Where counterparts are looked for: along the height of the relief map, or at the closest places of the mesh. */
export const meets = { alongHeight: meetAlongHeight, closest: meetClosest } as const;

export type MeetName = keyof typeof meets;

/** Whether a pair may end over (x, y). */
export function isInside({ inside, grid }: Target, x: number, y: number): boolean {
  const col = Math.round(columnOf(grid, x));
  const row = Math.round(rowOf(grid, y));
  return col >= 0 && row >= 0 && col < grid.width && row < grid.height && inside[row * grid.width + col] === 1;
}
