import { slopeX, slopeY } from '../geometry/index.ts';
import type { Signal } from './bandPassed.ts';
import { affineOf, invertAffine, nudge, type PlanarFit } from './similarity2d.ts';

/** How well two signals agree under a planar fit. */
export interface Agreement {
  readonly fit: PlanarFit;
  /** Correlation over the cells where both have data. */
  readonly correlation: number;
  /** Number of those cells, and their share of the reference's cells with data. */
  readonly cells: number;
  readonly overlap: number;
}

/** A reference signal with what every alignment to it needs, cell by cell where it has data. */
export interface AlignTarget {
  readonly signal: Signal;
  /** Place, mm from the middle, and value of each cell with data. */
  readonly x: Float32Array;
  readonly y: Float32Array;
  readonly value: Float32Array;
  /** How the value changes with turn (1/rad), size (1), and shift in x and y (1/mm): four numbers a cell. */
  readonly slopes: Float32Array;
}

export function alignTarget({ size, value, mask, pitch, ...signal }: Signal): AlignTarget {
  const cells = mask.reduce((sum, m) => sum + m, 0);
  const [x, y, values] = [new Float32Array(cells), new Float32Array(cells), new Float32Array(cells)];
  const slopes = new Float32Array(4 * cells);
  const middle = (size - 1) / 2;
  for (let row = 0, i = 0, k = 0; row < size; row++)
    for (let col = 0; col < size; col++, i++) {
      if (!mask[i]) continue;
      x[k] = (col - middle) * pitch;
      y[k] = (middle - row) * pitch;
      values[k] = value[i];
      const within = row > 0 && row < size - 1 && col > 0 && col < size - 1;
      if (within && mask[i - 1] && mask[i + 1] && mask[i - size] && mask[i + size]) {
        const gx = slopeX(value, i, pitch);
        const gy = slopeY(value, i, size, pitch);
        slopes.set([x[k] * gy - y[k] * gx, x[k] * gx + y[k] * gy, gx, gy], 4 * k);
      }
      k++;
    }
  return { signal: { size, value, mask, pitch, ...signal }, x, y, value: values, slopes };
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

/**
 * One pass over the reference's cells: agreement at `fit`, and the normal equations h · move = g of the next step. With J a
 * cell's four slopes and a the reference's, b the subject's value, g = k ΣJb + c ΣJ − ΣJa, so that gain k and offset c may come last.
 */
function step({ x, y, value, slopes }: AlignTarget, subject: Signal, fit: PlanarFit) {
  const under = samplerUnder(subject, fit);
  const h = new Float64Array(16);
  const [sj, sja, sjb] = [new Float64Array(4), new Float64Array(4), new Float64Array(4)];
  let [n, sa, sb, saa, sab, sbb] = [0, 0, 0, 0, 0, 0];
  for (let k = 0; k < x.length; k++) {
    const b = under(x[k], y[k]);
    if (Number.isNaN(b)) continue;
    const a = value[k];
    n++;
    sa += a;
    sb += b;
    saa += a * a;
    sab += a * b;
    sbb += b * b;
    for (let r = 0; r < 4; r++) {
      const j = slopes[4 * k + r];
      sj[r] += j;
      sja[r] += j * a;
      sjb[r] += j * b;
      for (let c = 0; c <= r; c++) h[4 * r + c] += j * slopes[4 * k + c];
    }
  }
  for (let r = 0; r < 4; r++) for (let c = 0; c < r; c++) h[4 * c + r] = h[4 * r + c];
  const covariance = sab - (sa * sb) / n;
  const varianceA = saa - (sa * sa) / n;
  const varianceB = sbb - (sb * sb) / n;
  const correlation = n > 2 && varianceA > 0 && varianceB > 0 ? covariance / Math.sqrt(varianceA * varianceB) : 0;
  const gain = varianceB > 0 ? covariance / varianceB : 0;
  const offset = n > 0 ? (sa - gain * sb) / n : 0;
  return {
    agreement: { correlation, cells: n, overlap: n / x.length },
    h,
    g: sj.map((sum, r) => gain * sjb[r] + offset * sum - sja[r]),
  };
}

/** The subject's value at a place of the reference, mm; NaN where it has no data. */
function samplerUnder(subject: Signal, fit: PlanarFit): (x: number, y: number) => number {
  const inverse = invertAffine(affineOf(fit));
  const sign = fit.negate ? -1 : 1;
  const middle = (subject.size - 1) / 2;
  const [ux, uy, u0] = [inverse.a, inverse.b, inverse.tx].map((value) => value / subject.pitch);
  const [vx, vy, v0] = [inverse.c, inverse.d, inverse.ty].map((value) => value / subject.pitch);
  return (x, y) => sign * bilinear(subject, ux * x + uy * y + u0 + middle, middle - (vx * x + vy * y + v0));
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
