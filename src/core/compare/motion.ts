import type { Face, ImageBox } from '../face/index.ts';
import { applyWarp, type FitModel, type Warp } from '../fit/index.ts';
import { compose, identity, type Similarity, solveSymmetric } from '../geometry/index.ts';

/** A model of the fit made ready to move many points: flat numbers, so that it goes to a thread. */
export interface SubjectMotion {
  /** Reference face frame ← subject scan, the warp's own small motion included; row-major 3 × 4, scale included. */
  readonly faceFromSubject: Float64Array;
  /** Rotation alone of the same, for directions; row-major. */
  readonly turn: Float64Array;
  /** Displacement after that: 10 coefficients of `monomials` for each of x, y, z, mm over (mm)ᵏ; none without a warp. */
  readonly bend?: Float64Array;
}

/** 1, x, y, x², xy, y², x³, x²y, xy², y³. */
const monomials = (x: number, y: number): number[] => [
  1,
  x,
  y,
  x * x,
  x * y,
  y * y,
  x * x * x,
  x * x * y,
  x * y * y,
  y * y * y,
];

/** The model as one motion from the subject's scan to the reference's face frame, mm. */
export function subjectMotion(reference: Face, model: FitModel): SubjectMotion {
  const similarity = compose(reference.faceFromScan, model.referenceFromSubject);
  const full = model.warp ? compose(model.warp.before, similarity) : similarity;
  return {
    faceFromSubject: flat(full),
    turn: Float64Array.from(full.rotation),
    ...(model.warp && { bend: warpPolynomial(model.warp) }),
  };
}

function flat({ scale, rotation: r, translation: t }: Similarity): Float64Array {
  const rows = [0, 1, 2].map((k) => [r[3 * k] * scale, r[3 * k + 1] * scale, r[3 * k + 2] * scale, t[k]]);
  return Float64Array.from(rows.flat());
}

/**
 * The displacement of a smooth warp as cubic polynomials in x and y, mm, its own small motion left out: three times
 * ten coefficients. The basis is polynomial of degree three, so a solve over a 6 × 6 lattice is exact to rounding, and
 * evaluating thirty products is some twenty times faster than summing the basis fields.
 */
export function warpPolynomial(warp: Warp): Float64Array {
  const bare: Warp = { ...warp, before: identity };
  const h = new Float64Array(100);
  const g = [new Float64Array(10), new Float64Array(10), new Float64Array(10)];
  for (let i = 0; i < 6; i++)
    for (let j = 0; j < 6; j++) {
      const u = -1 + (2 * i) / 5;
      const v = -1 + (2 * j) / 5;
      const [x, y] = [u * warp.radiusMm, v * warp.radiusMm];
      const m = monomials(u, v);
      const [px, py, pz] = applyWarp(bare, [x, y, 0]);
      for (let a = 0; a < 10; a++) {
        g[0][a] += m[a] * (px - x);
        g[1][a] += m[a] * (py - y);
        g[2][a] += m[a] * pz;
        for (let b = 0; b < 10; b++) h[10 * a + b] += m[a] * m[b];
      }
    }
  const size = monomials(warp.radiusMm, warp.radiusMm);
  const out = new Float64Array(30);
  g.forEach((right, k) => {
    const c = solveSymmetric(h, right, 10) ?? new Float64Array(10);
    for (let a = 0; a < 10; a++) out[10 * k + a] = c[a] / size[a];
  });
  return out;
}

/**
 * Moves points of the subject's scan into the reference's face frame: q = A p + t, then q + bend(q_x, q_y), mm.
 * Reads xyz triples `from` to `to` of `positions`, in the order given by `order` where there is one, and writes them at
 * the start of `out`.
 */
export function movePoints(
  motion: SubjectMotion,
  positions: Float32Array,
  from: number,
  to: number,
  out: Float64Array,
  order?: Uint32Array | null,
): void {
  const { faceFromSubject: m, bend } = motion;
  for (let i = from, k = 0; i < to; i++, k += 3) {
    const at = 3 * (order ? order[i] : i);
    const x = positions[at];
    const y = positions[at + 1];
    const z = positions[at + 2];
    out[k] = m[0] * x + m[1] * y + m[2] * z + m[3];
    out[k + 1] = m[4] * x + m[5] * y + m[6] * z + m[7];
    out[k + 2] = m[8] * x + m[9] * y + m[10] * z + m[11];
    if (bend) bendPoint(bend, out, k);
  }
}

/** Turns directions of the subject's scan into the reference's face frame, as `movePoints` moves points. */
export function turnNormals(
  { turn: r }: SubjectMotion,
  normals: Float32Array,
  from: number,
  to: number,
  out: Float64Array,
  order?: Uint32Array | null,
): void {
  for (let i = from, k = 0; i < to; i++, k += 3) {
    const at = 3 * (order ? order[i] : i);
    const x = normals[at];
    const y = normals[at + 1];
    const z = normals[at + 2];
    out[k] = r[0] * x + r[1] * y + r[2] * z;
    out[k + 1] = r[3] * x + r[4] * y + r[5] * z;
    out[k + 2] = r[6] * x + r[7] * y + r[8] * z;
  }
}

function bendPoint(c: Float64Array, p: Float64Array, at: number): void {
  const x = p[at];
  const y = p[at + 1];
  const xx = x * x;
  const xy = x * y;
  const yy = y * y;
  for (let k = 0; k < 3; k++) {
    const b = 10 * k;
    p[at + k] +=
      c[b] +
      c[b + 1] * x +
      c[b + 2] * y +
      c[b + 3] * xx +
      c[b + 4] * xy +
      c[b + 5] * yy +
      (c[b + 6] * x + c[b + 7] * y) * xx +
      (c[b + 8] * x + c[b + 9] * y) * yy;
  }
}

/**
 * Size of the whole motion along x and y of the reference's face frame: the similarity's scale times 1 + the slope of
 * the warp's displacement along each axis, by least squares over the disc about the face's image. Depth has the scale alone.
 */
export function sizeAlongAxes(
  { faceFromSubject: m, bend }: SubjectMotion,
  { middle, side }: Pick<ImageBox, 'middle' | 'side'>,
) {
  const scale = Math.hypot(m[0], m[4], m[8]);
  const sums = { x: 0, y: 0, n: 0 };
  const p = new Float64Array(3);
  for (let i = -10; bend && i <= 10; i++)
    for (let j = -10; j <= 10; j++) {
      if (i * i + j * j > 100) continue;
      const [u, v] = [(i * side) / 20, (j * side) / 20];
      const [x, y] = [middle[0] + u, middle[1] + v];
      p.fill(0);
      p[0] = x;
      p[1] = y;
      bendPoint(bend, p, 0);
      sums.x += u * (p[0] - x);
      sums.y += v * (p[1] - y);
      sums.n += u * u;
    }
  const slope = (sum: number): number => (sums.n > 0 ? sum / sums.n : 0);
  return { x: scale * (1 + slope(sums.x)), y: scale * (1 + slope(sums.y)), z: scale };
}
