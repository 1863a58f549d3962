import { areaVector } from '../../geometry/index.ts';

/** Sums over the triangles of a surface, in the unit of its positions. */
export interface Totals {
  area: number;
  /** Σ a · (b × c) / 6: the volume of a closed body wound outward. */
  volume: number;
  /** Σ n A: zero for a closed body. */
  x: number;
  y: number;
  z: number;
}

export const newTotals = (): Totals => ({ area: 0, volume: 0, x: 0, y: 0, z: 0 });

/** sin² of the smallest corner under which a triangle counts as a line. */
const flatSine2 = 1e-20;

/**
 * Adds the triangle whose corners begin at `a`, `b`, `c` in `p`, unless it has no area: two equal places, or
 * |u × v|² ≤ 10⁻²⁰ |u|² |v|² for two sides u, v. False where nothing was added.
 */
export function addTriangle(totals: Totals, p: Float32Array, a: number, b: number, c: number): boolean {
  const px = p[a];
  const py = p[a + 1];
  const pz = p[a + 2];
  const ux = p[b] - px;
  const uy = p[b + 1] - py;
  const uz = p[b + 2] - pz;
  const vx = p[c] - px;
  const vy = p[c + 1] - py;
  const vz = p[c + 2] - pz;
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const size2 = nx * nx + ny * ny + nz * nz;
  if (size2 <= flatSine2 * (ux * ux + uy * uy + uz * uz) * (vx * vx + vy * vy + vz * vz)) return false;
  totals.area += Math.sqrt(size2) / 2;
  totals.volume += (px * nx + py * ny + pz * nz) / 6;
  totals.x += nx / 2;
  totals.y += ny / 2;
  totals.z += nz / 2;
  return true;
}

export function totalsOf(p: Float32Array, triangles: Uint32Array): Totals {
  const totals = newTotals();
  for (let t = 0; t < triangles.length; t += 3)
    addTriangle(totals, p, triangles[t] * 3, triangles[t + 1] * 3, triangles[t + 2] * 3);
  return totals;
}

/** Those of the same surface wound the other way. */
export const turnedTotals = ({ area, volume, x, y, z }: Totals): Totals => ({
  area,
  volume: -volume,
  x: -x,
  y: -y,
  z: -z,
});

const twice = new Float64Array(3);

/** Area of the triangle at `t`: |(b − a) × (c − a)| / 2. */
export function areaAt(p: Float32Array, triangles: Uint32Array, t: number): number {
  areaVector(p, triangles, t, twice);
  const [x, y, z] = twice;
  return Math.sqrt(x ** 2 + y ** 2 + z ** 2) / 2;
}
