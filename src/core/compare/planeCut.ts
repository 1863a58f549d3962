import { inStretches } from '../geometry/index.ts';

/**
 * A surface cut by the upright plane through a line on the face plane: one straight piece for each triangle crossed.
 * Four numbers a piece: place along the line and height at its two ends, mm, the first place never the greater.
 */
export interface PlaneCut {
  readonly pieces: Float64Array;
  /** Sign of the outward normal's height component of each piece's triangle: 1 up, −1 down, 0 upright. */
  readonly up: Int8Array;
}

/** Writes 1 for the points, xyz triples, that `cutByPlane` takes to lie left of the line, else 0. */
export function markLeft(
  points: Float64Array,
  line: readonly [number, number, number, number],
  left: Uint8Array,
): void {
  const [x0, y0, x1, y1] = line;
  const length = Math.hypot(x1 - x0, y1 - y0);
  const ux = (x1 - x0) / length;
  const uy = (y1 - y0) / length;
  for (let i = 0; i < left.length; i++)
    left[i] = (points[3 * i + 1] - y0) * ux - (points[3 * i] - x0) * uy >= 0 ? 1 : 0;
}

/** The corners, three by three, of the triangles that have some on either side. */
export function cornersCrossed(triangles: Uint32Array, left: Uint8Array): Uint32Array {
  const crossed: number[] = [];
  inStretches(findCrossed, { triangles, left, crossed }, triangles.length / 3);
  return Uint32Array.from(crossed);
}

interface Crossing {
  readonly triangles: Uint32Array;
  readonly left: Uint8Array;
  readonly crossed: number[];
}

function findCrossed({ triangles, left, crossed }: Crossing, from: number, to: number): void {
  for (let i = 3 * from; i < 3 * to; i += 3) {
    const a = triangles[i];
    const b = triangles[i + 1];
    const c = triangles[i + 2];
    if (left[a] !== left[b] || left[b] !== left[c]) crossed.push(a, b, c);
  }
}

/**
 * Cuts triangles whose corners are given as xyz triples in the face frame, mm, by the plane that holds the line from
 * (x0, y0) to (x1, y1) and the z axis, between the line's ends. Exact: corners on the plane are taken to lie on its left.
 */
export function cutByPlane(
  corners: Float64Array,
  triangles: Uint32Array,
  line: readonly [number, number, number, number],
): PlaneCut {
  const [x0, y0, x1, y1] = line;
  const length = Math.hypot(x1 - x0, y1 - y0);
  const ux = (x1 - x0) / length;
  const uy = (y1 - y0) / length;
  const n = corners.length / 3;
  const along = new Float64Array(n);
  const aside = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const x = corners[3 * i] - x0;
    const y = corners[3 * i + 1] - y0;
    along[i] = x * ux + y * uy;
    aside[i] = y * ux - x * uy;
  }
  const pieces: number[] = [];
  const up: number[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    const a = triangles[i];
    const b = triangles[i + 1];
    const c = triangles[i + 2];
    const left = (aside[a] >= 0 ? 1 : 0) + (aside[b] >= 0 ? 1 : 0) + (aside[c] >= 0 ? 1 : 0);
    if (left === 0 || left === 3) continue;
    const ends: number[] = [];
    for (const [p, q] of [
      [a, b],
      [b, c],
      [c, a],
    ]) {
      if (aside[p] >= 0 === aside[q] >= 0) continue;
      const f = aside[p] / (aside[p] - aside[q]);
      ends.push(
        along[p] + f * (along[q] - along[p]),
        corners[3 * p + 2] + f * (corners[3 * q + 2] - corners[3 * p + 2]),
      );
    }
    const [s0, z0, s1, z1] = ends;
    if (Math.max(s0, s1) < 0 || Math.min(s0, s1) > length) continue;
    pieces.push(...(s0 <= s1 ? [s0, z0, s1, z1] : [s1, z1, s0, z0]));
    up.push(upward(corners, a, b, c));
  }
  return { pieces: Float64Array.from(pieces), up: Int8Array.from(up) };
}

function upward(p: Float64Array, a: number, b: number, c: number): number {
  const ux = p[3 * b] - p[3 * a];
  const uy = p[3 * b + 1] - p[3 * a + 1];
  const vx = p[3 * c] - p[3 * a];
  const vy = p[3 * c + 1] - p[3 * a + 1];
  return Math.sign(ux * vy - uy * vx);
}

/**
 * The outermost height of a cut at each place of `at` (ascending), mm: of the pieces there that look outward (`outward`
 * 1: up, −1: down) the one farthest that way; NaN where none is.
 */
export function profileOf({ pieces, up }: PlaneCut, at: Float64Array, outward: 1 | -1): Float64Array {
  const heights = new Float64Array(at.length).fill(Number.NaN);
  const step = at.length > 1 ? at[1] - at[0] : 1;
  for (let k = 0; k < up.length; k++) {
    if (up[k] !== outward) continue;
    const [s0, z0, s1, z1] = pieces.subarray(4 * k, 4 * k + 4);
    const from = Math.max(0, Math.ceil((s0 - at[0]) / step - 1e-9));
    const to = Math.min(at.length - 1, Math.floor((s1 - at[0]) / step + 1e-9));
    for (let i = from; i <= to; i++) {
      const z = s1 > s0 ? z0 + ((at[i] - s0) / (s1 - s0)) * (z1 - z0) : z0;
      if (!(outward * heights[i] >= outward * z)) heights[i] = z;
    }
  }
  return heights;
}
