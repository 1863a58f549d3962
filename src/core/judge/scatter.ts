import { invertSmall } from '../geometry/index.ts';
import type { Patch } from './patches.ts';

/** What displacements say of one scatter σ: log pseudo-likelihood (natural), and each patch's part in the flow. */
export interface ScatterFit {
  readonly sigmaMm: number;
  readonly logLikelihood: number;
  readonly each: Float64Array;
  /** Leave-one-out remainders, mm, x and y in turn, and the probability that the patch is not an outlier. */
  readonly left: Float64Array;
  readonly member: Float64Array;
  readonly epsilon: number;
}

export interface ScatterOptions {
  readonly sizeMm: number;
  /** Area over which an outlier's place is uniform, mm². */
  readonly windowMm2: number;
  /** Further error of every place, mm (1 σ): point spacing. */
  readonly spacingMm: number;
  /** Greatest degree of the smooth flow. */
  readonly degree: number;
  /** Share of outliers allowed for, before the data are seen. */
  readonly outliers: number;
  /** … with the weight of so many patches. */
  readonly outlierWeight: number;
  /** Patches that are clear on both and found nowhere: outliers beyond doubt. */
  readonly absent: number;
}

/**
 * Log pseudo-likelihood of the patches' shifts under a smooth flow (polynomial of the place) and a scatter σ:
 *
 *   dᵢ = f(xᵢ) + N(0, Σᵢ + (σ² + s²) I) with probability 1 − ε, else uniform over the window of the search;
 *
 * each patch predicted by all others (leave one out through the hat matrix), ε from the members themselves. Summed over
 * patches, nat. EM. `errorScale`: how many times as large the errors of the places are as worked out; nobody knows them better.
 */
export function scatterFit(
  patches: readonly Patch[],
  sigmaMm: number,
  options: ScatterOptions,
  errorScale = 1,
): ScatterFit {
  const n = patches.length;
  const basis = patches.map((p) => terms(p, options));
  const m = basis[0]?.length ?? 0;
  const member = new Float64Array(n).fill(1);
  const noise = noiseOf(patches, sigmaMm, options.spacingMm, errorScale);
  let epsilon = options.outliers;
  const left = new Float64Array(2 * n);
  const each = new Float64Array(n);
  for (let round = 0; round < 12; round++) {
    const inverse = normal(basis, noise, member, m);
    if (!inverse) break;
    const beta = coefficients(basis, noise, member, m, inverse, patches);
    let kept = 0;
    for (let i = 0; i < n; i++) {
      const density = leaveOut(i, patches[i], basis[i], noise, member[i], inverse, beta, left);
      const inside = (1 - epsilon) * density;
      const outside = epsilon / options.windowMm2;
      each[i] = Math.log(inside + outside);
      // The first rounds harden slowly, so that the flow is not led by the outliers.
      member[i] = inside / (inside + outside);
      kept += member[i];
    }
    epsilon =
      (n + options.absent - kept + options.outlierWeight * options.outliers) /
      (n + options.absent + options.outlierWeight);
  }
  const prior =
    options.outlierWeight *
    (options.outliers * Math.log(epsilon / options.outliers) +
      (1 - options.outliers) * Math.log((1 - epsilon) / (1 - options.outliers)));
  const absent = options.absent * Math.log(epsilon / options.windowMm2);
  return { sigmaMm, logLikelihood: each.reduce((s, v) => s + v, 0) + prior + absent, each, left, member, epsilon };
}

function terms({ x, y }: Patch, { sizeMm, degree }: ScatterOptions): Float64Array {
  const out = new Float64Array(((degree + 1) * (degree + 2)) / 2);
  for (let p = 0, k = 0; p <= degree; p++)
    for (let q = 0; p + q <= degree; q++, k++) out[k] = ((2 * x) / sizeMm) ** p * ((2 * y) / sizeMm) ** q;
  return out;
}

/** Covariance of each patch's shift but for the flow, mm²: xx, xy, yy of one after another. */
function noiseOf(patches: readonly Patch[], sigmaMm: number, spacingMm: number, errorScale: number): Float64Array {
  const k = errorScale ** 2;
  const v = sigmaMm ** 2 + k * spacingMm ** 2;
  const out = new Float64Array(3 * patches.length);
  for (let i = 0; i < patches.length; i++) {
    const { covariance } = patches[i];
    out[3 * i] = k * covariance[0] + v;
    out[3 * i + 1] = k * covariance[1];
    out[3 * i + 2] = k * covariance[2] + v;
  }
  return out;
}

/** (Σ Bᵀ W B)⁻¹ of both shifts together, 2m × 2m: x terms first. A slight ridge (1 mm⁻²) holds what no patch sees. */
function normal(
  basis: readonly Float64Array[],
  noise: Float64Array,
  member: Float64Array,
  m: number,
): Float64Array | null {
  const h = new Float64Array(4 * m * m);
  for (let i = 0; i < basis.length; i++) {
    setPrecision(noise, i, member[i]);
    addPatch(h, basis[i], precision[0], precision[1], precision[2]);
  }
  for (let p = 0; p < 2 * m; p++) h[p * 2 * m + p] += 1;
  return invertSmall(h, 2 * m);
}

/** One patch's part of Bᵀ W B. A function of its own, so that the engine compiles it once, and not each loop that it stands in. */
function addPatch(h: Float64Array, basis: Float64Array, wxx: number, wxy: number, wyy: number): void {
  const m = basis.length;
  for (let p = 0, x = 0, y = 2 * m * m; p < m; p++, x += 2 * m, y += 2 * m)
    for (let q = 0; q < m; q++) {
      const bb = basis[p] * basis[q];
      h[x + q] += wxx * bb;
      h[x + m + q] += wxy * bb;
      h[y + q] += wxy * bb;
      h[y + m + q] += wyy * bb;
    }
}

/** Inverse of a patch's covariance, times its membership: xx, xy, yy. Asked some ten thousand times: no array for each. */
const precision = new Float64Array(3);

function setPrecision(noise: Float64Array, i: number, member: number): void {
  const xx = noise[3 * i];
  const xy = noise[3 * i + 1];
  const yy = noise[3 * i + 2];
  const det = xx * yy - xy * xy;
  precision[0] = (member * yy) / det;
  precision[1] = (-member * xy) / det;
  precision[2] = (member * xx) / det;
}

function coefficients(
  basis: readonly Float64Array[],
  noise: Float64Array,
  member: Float64Array,
  m: number,
  inverse: Float64Array,
  patches: readonly Patch[],
): Float64Array {
  const g = new Float64Array(2 * m);
  for (let i = 0; i < basis.length; i++) {
    setPrecision(noise, i, member[i]);
    const { dx, dy } = patches[i];
    addShift(g, basis[i], precision[0] * dx + precision[1] * dy, precision[1] * dx + precision[2] * dy);
  }
  return timesVector(inverse, g);
}

/** One patch's part of Bᵀ W d. */
function addShift(g: Float64Array, basis: Float64Array, alongX: number, alongY: number): void {
  const m = basis.length;
  for (let p = 0; p < m; p++) {
    g[p] += basis[p] * alongX;
    g[m + p] += basis[p] * alongY;
  }
}

function timesVector(matrix: Float64Array, vector: Float64Array): Float64Array {
  const n = vector.length;
  const out = new Float64Array(n);
  for (let p = 0, at = 0; p < n; p++) for (let q = 0; q < n; q++, at++) out[p] += matrix[at] * vector[q];
  return out;
}

/** Remainder of one patch predicted by the others, into `left`, and its density there: r' = (I − H)⁻¹ r, covariance V + P'. */
function leaveOut(
  i: number,
  patch: Patch,
  basis: Float64Array,
  noise: Float64Array,
  member: number,
  inverse: Float64Array,
  beta: Float64Array,
  left: Float64Array,
): number {
  predict(basis, inverse, beta);
  const pxx = predicted[2];
  const pxy = predicted[3];
  const pyy = predicted[4];
  const rx = patch.dx - predicted[0];
  const ry = patch.dy - predicted[1];
  // Taking the patch out: information P⁻¹ − W, prediction from the rest.
  setPrecision(noise, i, member);
  const wxx = precision[0];
  const wxy = precision[1];
  const wyy = precision[2];
  const det = pxx * pyy - pxy * pxy;
  const ixx = pyy / det - wxx;
  const ixy = -pxy / det - wxy;
  const iyy = pxx / det - wyy;
  const d2 = ixx * iyy - ixy * ixy;
  const tells = d2 > 0 && ixx > 0;
  const vxx = tells ? Math.min(iyy / d2, 100) : 100;
  const vxy = tells ? -ixy / d2 : 0;
  const vyy = tells ? Math.min(ixx / d2, 100) : 100;
  // r' = r + V' W r, V' the covariance of the prediction by the others.
  const ux = wxx * rx + wxy * ry;
  const uy = wxy * rx + wyy * ry;
  const lx = rx + vxx * ux + vxy * uy;
  const ly = ry + vxy * ux + vyy * uy;
  left[2 * i] = lx;
  left[2 * i + 1] = ly;
  const sxx = vxx + noise[3 * i];
  const sxy = vxy + noise[3 * i + 1];
  const syy = vyy + noise[3 * i + 2];
  const ds = sxx * syy - sxy * sxy;
  const square = (syy * lx * lx - 2 * sxy * lx * ly + sxx * ly * ly) / ds;
  return Math.exp(-0.5 * square) / (2 * Math.PI * Math.sqrt(ds));
}

/** The flow at a patch, x and y, and its covariance, xx, xy, yy. */
const predicted = new Float64Array(5);

function predict(basis: Float64Array, inverse: Float64Array, beta: Float64Array): void {
  const m = basis.length;
  let fx = 0;
  let fy = 0;
  let pxx = 0;
  let pxy = 0;
  let pyy = 0;
  for (let p = 0, x = 0, y = 2 * m * m; p < m; p++, x += 2 * m, y += 2 * m) {
    fx += basis[p] * beta[p];
    fy += basis[p] * beta[m + p];
    for (let q = 0; q < m; q++) {
      const bb = basis[p] * basis[q];
      pxx += bb * inverse[x + q];
      pxy += bb * inverse[x + m + q];
      pyy += bb * inverse[y + m + q];
    }
  }
  predicted[0] = fx;
  predicted[1] = fy;
  predicted[2] = pxx;
  predicted[3] = pxy;
  predicted[4] = pyy;
}
