import { type ClosestPlace, closestPlaceKernel, closestPlaceOn, type SharedPlaces } from '../../../kernels/index.ts';
import { closestPlainly } from './closestPlainly.ts';
import type { ClosestSearch } from './closestSearch.ts';
import type { Help } from './helpIndex.ts';
import { buildSurfaceIndex, type SurfaceIndex } from './surfaceIndex.ts';

export type { SharedPlaces };

/** For `minCosine`: any normal will do. */
export const anyNormal = -2;

/** Below this many triangles a kernel of one's own costs more than it saves. */
const worthAKernel = 2_000;
/** Kernels of the indexes that were asked already; they go when their index goes. */
const kernels = new WeakMap<SurfaceIndex, ClosestPlace | 'plain'>();

function kernelOf(index: SurfaceIndex, help?: Help): ClosestPlace | 'plain' {
  const known = kernels.get(index);
  if (known) return known;
  const made = index.triangleOf.length < worthAKernel ? 'plain' : (closestPlaceKernel(index, help) ?? 'plain');
  kernels.set(index, made);
  return made;
}

/** Lays an index out for its kernel before it is first asked, with another thread's help; the index must have been made with it. */
export function layOutWith(help: Help, index: SurfaceIndex): void {
  kernelOf(index, help);
}

/** What one other thread needs to ask this index at the same time; null where memory is not shared. */
export function shareIndex(index: SurfaceIndex): SharedPlaces | null {
  const kernel = kernelOf(index);
  return kernel === 'plain' ? null : kernel.shared;
}

/** An index that another thread shares, to be asked here; answers name no triangle. Null where that cannot be. */
export function indexSharedWith(places: SharedPlaces): SurfaceIndex | null {
  const kernel = closestPlaceOn(places);
  if (!kernel) return null;
  const index = buildSurfaceIndex({ positions: new Float32Array(), triangles: new Uint32Array(), offset: [0, 0, 0] });
  kernels.set(index, kernel);
  return index;
}

/**
 * The closest point q of the surface to p = (x, y, z) with ‖p − q‖ ≤ maxDistance and n(q) · (dx, dy, dz) ≥ minCosine,
 * exact: a branch is left out only when its bounds are farther than the best found. Returns whether there is one and
 * writes it into `out`. The answer does not depend on the order of vertices or triangles nor on earlier queries: of
 * points equally far, the one on the triangle that faces p most squarely is taken, then the one whose triangle lies
 * first by centroid. Successive queries near each other are faster. Large surfaces are searched by a compiled kernel
 * where the engine lets it run; `closestPlainly` is its referee and gives the same numbers.
 */
export const closestOnSurface: ClosestSearch = (index, x, y, z, maxDistance, dx, dy, dz, minCosine, out) => {
  const kernel = kernelOf(index);
  if (kernel === 'plain') return closestPlainly(index, x, y, z, maxDistance, dx, dy, dz, minCosine, out);
  const { ask, out: place } = kernel;
  ask[0] = x;
  ask[1] = y;
  ask[2] = z;
  ask[3] = maxDistance;
  ask[4] = dx;
  ask[5] = dy;
  ask[6] = dz;
  ask[7] = minCosine;
  const slot = kernel.closest(out.slot);
  if (slot < 0) return false;
  out.x = place[0];
  out.y = place[1];
  out.z = place[2];
  out.nx = place[3];
  out.ny = place[4];
  out.nz = place[5];
  out.distance = place[6];
  out.onBorder = place[7] === 1;
  out.triangle = index.triangleOf[slot];
  out.slot = slot;
  return true;
};
