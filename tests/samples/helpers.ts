import {
  bit,
  type GeneratedScan,
  makePair,
  mmPerUnit,
  type Recipe,
  randomRecipe,
} from '../../sample-scans/generator/index.ts';
import { handOf } from '../../sample-scans/generator/node.ts';

export const pairOf = (seed: number, changes: Partial<Recipe>) =>
  makePair({ ...randomRecipe(seed, changes.relation ?? 'same'), vertices: 12_000, ...changes }, handOf);

/** A recipe without scanner noise, faults, wear, warp or loss: what is left is the die. */
export const plain = {
  clutter: 0,
  noiseMm: 0,
  wear: 0,
  warpMm: 0,
  coverage: 1,
  whole: false,
  mirrored: false,
  reversedWinding: false,
  referenceUnit: 'mm',
  subjectUnit: 'mm',
} as const satisfies Partial<Recipe>;

/** Vertex i of a scan in mm. */
export function pointMm(scan: GeneratedScan, i: number): [number, number, number] {
  const s = mmPerUnit[scan.unit];
  const p = scan.positions;
  return [p[3 * i] * s, p[3 * i + 1] * s, p[3 * i + 2] * s];
}

export const isSoundFace = (bits: number): boolean => bits === bit.face;

/** Every triangle tried: signed distance to the closest one, positive on the side its winding looks to. */
export function distanceByBruteForce(scan: GeneratedScan, p: readonly number[]): number {
  const s = mmPerUnit[scan.unit];
  const v = scan.positions;
  const t = scan.triangles;
  let best = Number.POSITIVE_INFINITY;
  let side = 1;
  for (let i = 0; i < t.length; i += 3) {
    const corner = (k: number): number[] => [v[3 * t[i + k]] * s, v[3 * t[i + k] + 1] * s, v[3 * t[i + k] + 2] * s];
    const a = corner(0);
    if (Math.hypot(a[0] - p[0], a[1] - p[1], a[2] - p[2]) > Math.sqrt(best) + 2) continue;
    const b = corner(1);
    const c = corner(2);
    const [squared, above] = toTriangle(p, a, b, c);
    if (squared < best) {
      best = squared;
      side = above;
    }
  }
  return side * Math.sqrt(best);
}

/** Squared distance to a triangle and the side of its plane, by sampling the plane foot and the three edges. */
function toTriangle(p: readonly number[], a: number[], b: number[], c: number[]): [number, number] {
  const u = sub(b, a);
  const v = sub(c, a);
  const w = sub(p, a);
  const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
  const nn = dot(n, n);
  const side = dot(w, n) < 0 ? -1 : 1;
  if (nn === 0) return [Number.POSITIVE_INFINITY, side];
  const beta = dot(cross(w, v), n) / nn;
  const gamma = dot(cross(u, w), n) / nn;
  if (beta >= 0 && gamma >= 0 && beta + gamma <= 1) return [dot(w, n) ** 2 / nn, side];
  return [Math.min(toEdge(p, a, b), toEdge(p, b, c), toEdge(p, c, a)), side];
}

function toEdge(p: readonly number[], a: number[], b: number[]): number {
  const d = sub(b, a);
  const w = sub(p, a);
  const t = Math.max(0, Math.min(1, dot(w, d) / dot(d, d)));
  return (w[0] - t * d[0]) ** 2 + (w[1] - t * d[1]) ** 2 + (w[2] - t * d[2]) ** 2;
}

const sub = (a: readonly number[], b: readonly number[]): number[] => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: readonly number[], b: readonly number[]): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: readonly number[], b: readonly number[]): number[] => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
