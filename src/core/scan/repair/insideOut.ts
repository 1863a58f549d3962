import type { Totals } from './totals.ts';
import { turn } from './winding.ts';

/** Share of its area that a body's normals may leave uncancelled to count as closed. */
const openShare = 0.02;
/** Smallest size of 6 √π V / A^1.5 (1 for a sphere) by which inside and outside are told apart. */
const leastVolume = 0.02;

/**
 * True where the surface is a closed body wound inside out: the normals cancel (|Σ n A| ≤ 2 % of Σ A, so small holes
 * do no harm) and the volume is clearly negative. Never for an open sheet: its two sides cannot be told apart.
 */
export function isInsideOut({ area, volume, x, y, z }: Totals): boolean {
  const closed = Math.hypot(x, y, z) <= openShare * area;
  return closed && (6 * Math.sqrt(Math.PI) * volume) / area ** 1.5 < -leastVolume;
}

/** Turns every triangle, in place. */
export function turnAll(triangles: Uint32Array): void {
  for (let t = 0; t < triangles.length; t += 3) turn(triangles, t);
}
