import { affineOf, invertAffine, nudge, type PlanarFit } from './planar.ts';
import type { Signal } from './signal.ts';

/** How well two signals agree under a planar fit. */
export interface Agreement {
  readonly fit: PlanarFit;
  /** Correlation over the cells where both have data. */
  readonly correlation: number;
  /** Number of those cells, and their share of the reference's cells with data. */
  readonly cells: number;
  readonly overlap: number;
}

/** A reference signal with what every alignment to it needs: gradients per mm. */
export interface AlignTarget {
  readonly signal: Signal;
  readonly gx: Float32Array;
  readonly gy: Float32Array;
  readonly dataCells: number;
}

export function alignTarget(signal: Signal): AlignTarget {
  const { size, value, mask, pitch } = signal;
  const gx = new Float32Array(value.length);
  const gy = new Float32Array(value.length);
  for (let row = 1; row < size - 1; row++)
    for (let col = 1; col < size - 1; col++) {
      const i = row * size + col;
      if (!(mask[i - 1] && mask[i + 1] && mask[i - size] && mask[i + size])) continue;
      gx[i] = (value[i + 1] - value[i - 1]) / (2 * pitch);
      gy[i] = (value[i - size] - value[i + size]) / (2 * pitch);
    }
  return { signal, gx, gy, dataCells: mask.reduce((sum, m) => sum + m, 0) };
}

/**
 * Improves a planar fit by Gauss–Newton steps on Σ (A − k B)², turn, size and shift free, k the regression gain
 * (Lucas and Kanade 1981; gradients are the reference's, after Baker and Matthews 2004). Stops when a step moves the
 * rim by less than `settledCells` of a cell. The size is kept within `scaleRange`.
 */
export function align(
  target: AlignTarget,
  subject: Signal,
  start: PlanarFit,
  rounds: number,
  settledCells: number,
  scaleRange: readonly [number, number] = [0.87, 1.14],
): Agreement {
  let fit = start;
  let best = step(target, subject, fit);
  let result: Agreement = { ...best.agreement, fit };
  for (let round = 0; round < rounds; round++) {
    const move = solve4(best.h, best.g);
    if (!move) break;
    const [dTurn, dScale, dx, dy] = move;
    fit = nudge(fit, limit(dTurn, 0.05), limit(dScale, 0.03), dx, dy);
    if (fit.scale < scaleRange[0] || fit.scale > scaleRange[1]) break;
    best = step(target, subject, fit);
    if (best.agreement.cells < 50) break;
    // The best place seen is returned, should the steps wander off.
    if (best.agreement.correlation > result.correlation) result = { ...best.agreement, fit };
    const radius = (target.signal.size / 2) * target.signal.pitch;
    const moved = Math.hypot(dx, dy) + radius * (Math.abs(dTurn) + Math.abs(dScale));
    if (moved < settledCells * target.signal.pitch) break;
  }
  return result;
}

const limit = (value: number, most: number): number => Math.max(-most, Math.min(most, value));

/** One pass: agreement at `fit`, and the normal equations of the next step. */
function step(target: AlignTarget, subject: Signal, fit: PlanarFit) {
  const pairs = sampleUnder(target, subject, fit);
  const { a, b, at, count } = pairs;
  let [sa, sb, saa, sab, sbb] = [0, 0, 0, 0, 0];
  for (let k = 0; k < count; k++) {
    sa += a[k];
    sb += b[k];
    saa += a[k] * a[k];
    sab += a[k] * b[k];
    sbb += b[k] * b[k];
  }
  const covariance = sab - (sa * sb) / count;
  const varianceA = saa - (sa * sa) / count;
  const varianceB = sbb - (sb * sb) / count;
  const correlation = count > 2 && varianceA > 0 && varianceB > 0 ? covariance / Math.sqrt(varianceA * varianceB) : 0;
  const gain = varianceB > 0 ? covariance / varianceB : 0;
  const offset = (sa - gain * sb) / count;
  const { h, g } = normalEquations(target, a, b, at, count, gain, offset);
  return { agreement: { correlation, cells: count, overlap: count / target.dataCells }, h, g };
}

function normalEquations(
  { signal, gx, gy }: AlignTarget,
  a: Float32Array,
  b: Float32Array,
  at: Int32Array,
  count: number,
  gain: number,
  offset: number,
) {
  const h = new Float64Array(16);
  const g = new Float64Array(4);
  const middle = (signal.size - 1) / 2;
  const j = new Float64Array(4);
  for (let k = 0; k < count; k++) {
    const i = at[k];
    const x = ((i % signal.size) - middle) * signal.pitch;
    const y = (middle - Math.floor(i / signal.size)) * signal.pitch;
    j[0] = -y * gx[i] + x * gy[i];
    j[1] = x * gx[i] + y * gy[i];
    j[2] = gx[i];
    j[3] = gy[i];
    const residual = gain * b[k] + offset - a[k];
    for (let r = 0; r < 4; r++) {
      g[r] += j[r] * residual;
      for (let c = 0; c <= r; c++) h[r * 4 + c] += j[r] * j[c];
    }
  }
  for (let r = 0; r < 4; r++) for (let c = 0; c < r; c++) h[c * 4 + r] = h[r * 4 + c];
  return { h, g };
}

/** Values of both signals at the reference's cells where both have data. */
function sampleUnder({ signal }: AlignTarget, subject: Signal, fit: PlanarFit) {
  const { size, pitch, value, mask } = signal;
  const inverse = invertAffine(affineOf(fit));
  const sign = fit.negate ? -1 : 1;
  const middle = (size - 1) / 2;
  const subjectMiddle = (subject.size - 1) / 2;
  const a = new Float32Array(size * size);
  const b = new Float32Array(size * size);
  const at = new Int32Array(size * size);
  let count = 0;
  for (let row = 0, i = 0; row < size; row++)
    for (let col = 0; col < size; col++, i++) {
      if (!mask[i]) continue;
      const x = (col - middle) * pitch;
      const y = (middle - row) * pitch;
      const u = (inverse.a * x + inverse.b * y + inverse.tx) / subject.pitch + subjectMiddle;
      const v = subjectMiddle - (inverse.c * x + inverse.d * y + inverse.ty) / subject.pitch;
      const sample = bilinear(subject, u, v);
      if (Number.isNaN(sample)) continue;
      a[count] = value[i];
      b[count] = sign * sample;
      at[count++] = i;
    }
  return { a, b, at, count };
}

function bilinear({ size, value, mask }: Signal, u: number, v: number): number {
  const u0 = Math.floor(u);
  const v0 = Math.floor(v);
  if (u0 < 0 || v0 < 0 || u0 >= size - 1 || v0 >= size - 1) return Number.NaN;
  const i = v0 * size + u0;
  if (!(mask[i] && mask[i + 1] && mask[i + size] && mask[i + size + 1])) return Number.NaN;
  const fu = u - u0;
  const fv = v - v0;
  return (
    (1 - fv) * ((1 - fu) * value[i] + fu * value[i + 1]) + fv * ((1 - fu) * value[i + size] + fu * value[i + size + 1])
  );
}

/** Solves a symmetric 4 × 4 system by Gaussian elimination with pivots; null where it is singular. */
function solve4(h: Float64Array, g: Float64Array): number[] | null {
  const m = Array.from({ length: 4 }, (_, r) => [...h.subarray(r * 4, r * 4 + 4), g[r]]);
  for (let k = 0; k < 4; k++) {
    let pivot = k;
    for (let r = k + 1; r < 4; r++) if (Math.abs(m[r][k]) > Math.abs(m[pivot][k])) pivot = r;
    if (!(Math.abs(m[pivot][k]) > 1e-12)) return null;
    [m[k], m[pivot]] = [m[pivot], m[k]];
    for (let r = 0; r < 4; r++) {
      if (r === k) continue;
      const factor = m[r][k] / m[k][k];
      for (let c = k; c < 5; c++) m[r][c] -= factor * m[k][c];
    }
  }
  return m.map((row, k) => row[4] / row[k]);
}
