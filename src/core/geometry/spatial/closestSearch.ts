import type { SurfaceIndex } from './surfaceIndex.ts';
import type { SurfacePoint } from './surfacePoint.ts';

/**
 * Asks for the closest point of a surface to (x, y, z) within `maxDistance` whose normal n has n · (dx, dy, dz) ≥ `minCosine`; writes it
 * into `out`, false where there is none.
 */
export type ClosestSearch = (
  index: SurfaceIndex,
  x: number,
  y: number,
  z: number,
  maxDistance: number,
  dx: number,
  dy: number,
  dz: number,
  minCosine: number,
  out: SurfacePoint,
) => boolean;
