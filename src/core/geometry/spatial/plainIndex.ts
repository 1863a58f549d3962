import { boundsSlack } from './surfaceBlocks.ts';
import type { SurfaceIndex } from './surfaceIndex.ts';

/** An index with what the plain search reads, side by side in slot order, so that a block is one stretch of memory. */
export interface PlainIndex extends SurfaceIndex {
  /** Nine per slot: corners a, b, c in mesh coordinates. */
  readonly corners: Float32Array;
  /** Eight per slot: a disc in the triangle's plane that holds it (centre, radius), unit normal, 0. */
  readonly discs: Float32Array;
}

/** Gathered when the plain search is first asked: the kernel has its own. They go when their index goes. */
const gathered = new WeakMap<SurfaceIndex, PlainIndex>();

export function plainIndex(index: SurfaceIndex): PlainIndex {
  const known = gathered.get(index) ?? { ...index, ...gatherSlots(index) };
  gathered.set(index, known);
  return known;
}

function gatherSlots({ mesh, triangleOf: order }: SurfaceIndex): { corners: Float32Array; discs: Float32Array } {
  const { positions: p, triangles: t } = mesh;
  const corners = new Float32Array(9 * order.length);
  const discs = new Float32Array(8 * order.length);
  for (let slot = 0; slot < order.length; slot++) {
    const triangle = order[slot];
    const at = 9 * slot;
    const a = 3 * t[3 * triangle];
    const b = 3 * t[3 * triangle + 1];
    const c = 3 * t[3 * triangle + 2];
    for (let k = 0; k < 3; k++) {
      corners[at + k] = p[a + k];
      corners[at + 3 + k] = p[b + k];
      corners[at + 6 + k] = p[c + k];
    }
    writeDisc(corners, at, discs, 8 * slot);
  }
  return { corners, discs };
}

function writeDisc(t: Float32Array, at: number, discs: Float32Array, k: number): void {
  const ux = t[at + 3] - t[at];
  const uy = t[at + 4] - t[at + 1];
  const uz = t[at + 5] - t[at + 2];
  const vx = t[at + 6] - t[at];
  const vy = t[at + 7] - t[at + 1];
  const vz = t[at + 8] - t[at + 2];
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const length = Math.sqrt(nx * nx + ny * ny + nz * nz) || 1;
  discs[k] = t[at] + (ux + vx) / 3;
  discs[k + 1] = t[at + 1] + (uy + vy) / 3;
  discs[k + 2] = t[at + 2] + (uz + vz) / 3;
  // From the centroid to a corner is a third of a sum of two sides.
  const a = (ux + vx) ** 2 + (uy + vy) ** 2 + (uz + vz) ** 2;
  const b = (2 * ux - vx) ** 2 + (2 * uy - vy) ** 2 + (2 * uz - vz) ** 2;
  const c = (2 * vx - ux) ** 2 + (2 * vy - uy) ** 2 + (2 * vz - uz) ** 2;
  const size = Math.abs(t[at]) + Math.abs(t[at + 1]) + Math.abs(t[at + 2]);
  discs[k + 3] = Math.sqrt(Math.max(a, b, c)) / 3 + boundsSlack * size;
  discs[k + 4] = nx / length;
  discs[k + 5] = ny / length;
  discs[k + 6] = nz / length;
}
