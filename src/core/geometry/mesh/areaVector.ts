/**
 * (b − a) × (c − a) of the triangle whose three corners `t` lists from `at` on, their xyz in `p`, into `out`: twice its area times its
 * outward normal, in the square of their unit. Into an array, since a tuple for every triangle would be left to be collected.
 */
export function areaVector(p: Float32Array, t: Uint32Array, at: number, out: Float64Array): void {
  const a = 3 * t[at];
  const b = 3 * t[at + 1];
  const c = 3 * t[at + 2];
  const ux = p[b] - p[a];
  const uy = p[b + 1] - p[a + 1];
  const uz = p[b + 2] - p[a + 2];
  const vx = p[c] - p[a];
  const vy = p[c + 1] - p[a + 1];
  const vz = p[c + 2] - p[a + 2];
  out[0] = uy * vz - uz * vy;
  out[1] = uz * vx - ux * vz;
  out[2] = ux * vy - uy * vx;
}
