import { apply, identity, type Vec3 } from '../geometry/index.ts';
import type { FitModel, Warp } from './types.ts';

/**
 * The smooth warp's basis: displacement fields over the reference's face plane, u = x/R, v = y/R.
 *
 * Bending out of the plane: every cubic polynomial in u, v less its constant and linear part, which the similarity
 * has (7). In the plane: stretch along x against y, shear (2), growth toward the rim (1), and the two fields
 * by which a conformal map bends straight lines (2). Twelve in all.
 */
const fields: ReadonlyArray<(u: number, v: number) => Vec3> = [
  (u) => [0, 0, u * u],
  (u, v) => [0, 0, u * v],
  (_, v) => [0, 0, v * v],
  (u) => [0, 0, u * u * u],
  (u, v) => [0, 0, u * u * v],
  (u, v) => [0, 0, u * v * v],
  (_, v) => [0, 0, v * v * v],
  (u, v) => [u, -v, 0],
  (u, v) => [v, u, 0],
  (u, v) => [u * (u * u + v * v), v * (u * u + v * v), 0],
  (u, v) => [u * u - v * v, 2 * u * v, 0],
  (u, v) => [-2 * u * v, u * u - v * v, 0],
];

export const warpParameters = fields.length;

/** How far each coefficient is expected to stray, mm: wax and plaster bend more easily than they stretch unevenly. */
export const warpPriorMm = (k: number): number => (k < 7 ? 0.3 : 0.1);

/** The basis field k at (x, y) mm, for a coefficient of 1 mm. */
export const warpField = (k: number, u: number, v: number): Vec3 => fields[k](u, v);

/** Where the warp takes the point p of the reference's face frame, mm. */
export function applyWarp(warp: Warp, p: Vec3): Vec3 {
  const q = apply(warp.before, p);
  const d = bend(warp.coefficients, q[0] / warp.radiusMm, q[1] / warp.radiusMm);
  return [q[0] + d[0], q[1] + d[1], q[2] + d[2]];
}

/** Σ cₖ bₖ(u, v), mm: the fields above written out, since every point asks in every round. */
export function bend(c: ArrayLike<number>, u: number, v: number): Vec3 {
  const squares = u * u + v * v;
  const difference = u * u - v * v;
  const twice = 2 * u * v;
  const even = c[0] * (u * u) + c[1] * (u * v) + c[2] * (v * v);
  const odd = c[3] * (u * u * u) + c[4] * (u * u * v) + c[5] * (u * v * v) + c[6] * (v * v * v);
  return [
    c[7] * u + c[8] * v + c[9] * (u * squares) + c[10] * difference - c[11] * twice,
    c[8] * u - c[7] * v + c[9] * (v * squares) + c[10] * twice + c[11] * difference,
    even + odd,
  ];
}

/** Points of the reference's face frame, xyz, with what the coefficients add to each. */
export function bentPoints(points: Float64Array, coefficients: ArrayLike<number>, radiusMm: number): Float64Array {
  const out = new Float64Array(points.length);
  for (let k = 0; k < out.length; k += 3) {
    const d = bend(coefficients, points[k] / radiusMm, points[k + 1] / radiusMm);
    for (let axis = 0; axis < 3; axis++) out[k + axis] = points[k + axis] + d[axis];
  }
  return out;
}

/** A warp that moves nothing. */
export const noWarp = (radiusMm: number): Warp => ({
  before: identity,
  radiusMm,
  coefficients: new Float64Array(warpParameters),
});

/** Where the similarity alone would have put what the warp puts at (x, y); three fixed-point rounds leave under 0.1 µm. */
export function unbend({ warp }: FitModel, x: number, y: number): [number, number] {
  if (!warp) return [x, y];
  let u = x;
  let v = y;
  for (let round = 0; round < 3; round++) {
    const p = applyWarp(warp, [u, v, 0]);
    u += x - p[0];
    v += y - p[1];
  }
  return [u, v];
}
