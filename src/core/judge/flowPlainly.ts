import type { FlowPatches, FlowRounds } from '../../kernels/index.ts';
import { invertSmall } from '../geometry/index.ts';

/** The rounds without the kernel, which gives the same numbers. */
export function flowRoundsPlainly({ terms: m, basis: all, noise, shifts }: FlowPatches): FlowRounds {
  const n = shifts.length / 2;
  const basis = Array.from({ length: n }, (_, i) => all.subarray(i * m, (i + 1) * m));
  const [member, square, determinant] = [new Float64Array(n), new Float64Array(n), new Float64Array(n)];
  const left = new Float64Array(2 * n);
  const round = (): boolean => {
    const inverse = normal(basis, noise, member, m);
    if (!inverse) return false;
    const beta = coefficients(basis, noise, member, m, inverse, shifts);
    for (let i = 0; i < n; i++) {
      leaveOut(i, shifts, basis[i], noise, member[i], inverse, beta, left);
      square[i] = remainder[0];
      determinant[i] = remainder[1];
    }
    return true;
  };
  return { member, round, left, square, determinant };
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
  shifts: Float64Array,
): Float64Array {
  const g = new Float64Array(2 * m);
  for (let i = 0; i < basis.length; i++) {
    setPrecision(noise, i, member[i]);
    const dx = shifts[2 * i];
    const dy = shifts[2 * i + 1];
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

/** Remainder of one patch: its square over the covariance, and the covariance's determinant. */
const remainder = new Float64Array(2);

/** Remainder of one patch predicted by the others, into `left` and `remainder`: r' = (I − H)⁻¹ r, covariance V + P'. */
function leaveOut(
  i: number,
  shifts: Float64Array,
  basis: Float64Array,
  noise: Float64Array,
  member: number,
  inverse: Float64Array,
  beta: Float64Array,
  left: Float64Array,
): void {
  predict(basis, inverse, beta);
  const pxx = predicted[2];
  const pxy = predicted[3];
  const pyy = predicted[4];
  const rx = shifts[2 * i] - predicted[0];
  const ry = shifts[2 * i + 1] - predicted[1];
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
  remainder[0] = (syy * lx * lx - 2 * sxy * lx * ly + sxx * ly * ly) / ds;
  remainder[1] = ds;
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
