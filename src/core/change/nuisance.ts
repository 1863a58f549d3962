import {
  compose,
  type HeightGrid,
  rotationAbout,
  type Similarity,
  solveSymmetric,
  xOf,
  yOf,
} from '../geometry/index.ts';
import type { Ground } from './commonGrid.ts';

/** Turn x, y, z and size times R, shift x, y, z: how the later is moved; mm at the rim. */
export const motionTerms = 7;
/** x², xy, y², x³, x²y, xy², y³ over R: bending of the instrument or the object. */
export const formTerms = 7;
/** How much blunter one of the two scans is: a multiple of the curvature of the surface. */
export const bluntTerms = 1;
export const allTerms = motionTerms + formTerms + bluntTerms;

export const nuisanceDefaults = {
  /** An instrument bends by about this much at the rim, mm, where nothing holds it: only there does it matter. */
  bendingMm: 0.01,
  /** Cells of one residual count as so many fewer, root, against that. */
  together: 3,
};

/** What of the difference is neither noise nor change of a place. */
export interface Nuisance {
  readonly form: Float64Array;
  /** mm²: a blur of variance v takes v/2 times the curvature off. */
  readonly blunt: number;
}

export const noNuisance: Nuisance = { form: new Float64Array(formTerms), blunt: 0 };

/** Derivatives of d = later − earlier at cell i by all terms, mm a mm; written into `out`. */
export function derivatives(ground: Ground, i: number, out: Float64Array): void {
  const { earlier, gx, gy, curvature, radiusMm: R } = ground;
  const x = xOf(earlier, i % earlier.width);
  const y = yOf(earlier, Math.floor(i / earlier.width));
  const z = earlier.z[i];
  const [a, b] = [gx[i], gy[i]];
  // A motion v of the surface changes its height over a fixed place by v_z − a v_x − b v_y; v = ω × r + t + s r.
  out[0] = (y + b * z) / R;
  out[1] = (-x - a * z) / R;
  out[2] = (a * y - b * x) / R;
  out[3] = -a;
  out[4] = -b;
  out[5] = 1;
  out[6] = (z - a * x - b * y) / R;
  const u = x / R;
  const v = y / R;
  out[7] = u * u;
  out[8] = u * v;
  out[9] = v * v;
  out[10] = u * u * u;
  out[11] = u * u * v;
  out[12] = u * v * v;
  out[13] = v * v * v;
  out[14] = curvature[i];
}

export interface Solved {
  readonly terms: Float64Array;
  /** Inverse of the normal matrix over the terms that were free, row-major: times the noise's variance it is their covariance. */
  readonly hessian: Float64Array;
  readonly free: number;
}

/**
 * Least squares of d + Σ p_k ∂d/∂p_k = 0 over the first `free` terms, with a weight per cell (1/mm²); null where nothing
 * has weight.
 */
export function solveTerms(
  ground: Ground,
  difference: Float32Array,
  weights: Float32Array,
  free: number,
): Solved | null {
  const h = new Float64Array(free * free);
  const g = new Float64Array(free);
  const j = new Float64Array(allTerms);
  for (let i = 0; i < weights.length; i++) {
    const w = weights[i];
    if (!(w > 0)) continue;
    derivatives(ground, i, j);
    for (let r = 0; r < free; r++) {
      const wr = w * j[r];
      g[r] -= wr * difference[i];
      for (let c = 0; c <= r; c++) h[r * free + c] += wr * j[c];
    }
  }
  for (let r = 0; r < free; r++) for (let c = 0; c < r; c++) h[c * free + r] = h[r * free + c];
  // Between holes and edges, where little holds a bending, it is held to what instruments do.
  const pull = (nuisanceDefaults.together / nuisanceDefaults.bendingMm) ** 2;
  for (let k = motionTerms; k < Math.min(free, motionTerms + formTerms); k++) h[k * (free + 1)] += pull;
  const terms = solveSymmetric(h, g, free);
  return terms && { terms, hessian: h, free };
}

/** The motion of the first seven terms, in the ground's face frame. */
export function motionOf(terms: Float64Array, radiusMm: number): Similarity {
  const [ox, oy, oz] = [terms[0] / radiusMm, terms[1] / radiusMm, terms[2] / radiusMm];
  const angle = Math.hypot(ox, oy, oz);
  return {
    scale: Math.exp(terms[6] / radiusMm),
    rotation: angle > 0 ? rotationAbout([ox / angle, oy / angle, oz / angle], angle) : [1, 0, 0, 0, 1, 0, 0, 0, 1],
    translation: [terms[3], terms[4], terms[5]],
  };
}

export const moved = (by: Similarity, faceFromScan: Similarity): Similarity => compose(by, faceFromScan);

/** Later less earlier with form and bluntness taken off, mm; 0 where either has no data. */
export function bareDifference(ground: Ground, later: HeightGrid, { form, blunt }: Nuisance): Float32Array {
  const { earlier, curvature, radiusMm: R } = ground;
  const d = new Float32Array(later.z.length);
  for (let i = 0; i < d.length; i++) {
    if (!(later.mask[i] && ground.sound[i])) continue;
    const u = xOf(earlier, i % earlier.width) / R;
    const v = yOf(earlier, Math.floor(i / earlier.width)) / R;
    const bent =
      form[0] * u * u +
      form[1] * u * v +
      form[2] * v * v +
      form[3] * u * u * u +
      form[4] * u * u * v +
      form[5] * u * v * v +
      form[6] * v * v * v;
    d[i] = later.z[i] - earlier.z[i] + bent + blunt * curvature[i];
  }
  return d;
}
