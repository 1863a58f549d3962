import { slopeX, slopeY } from '../geometry/index.ts';
import { type AlignCells, type AlignSums, alignSums } from './alignStep.ts';
import type { Signal } from './bandPassed.ts';
import { nudge, type PlanarFit } from './similarity2d.ts';

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
export interface AlignTarget extends AlignCells {
  readonly signal: Signal;
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
  let result = agreementAt(fit, best.agreement);
  for (let round = 0; round < rounds; round++) {
    const move = solve4(best.h, best.g);
    if (!move) break;
    const [dTurn, dScale, dx, dy] = move;
    fit = nudge(fit, limit(dTurn, 0.05), limit(dScale, 0.03), dx, dy);
    if (fit.scale < scaleRange[0] || fit.scale > scaleRange[1]) break;
    best = step(target, subject, fit);
    if (best.agreement.cells < 50) break;
    // The best place seen is returned, should the steps wander off.
    if (best.agreement.correlation > result.correlation) result = agreementAt(fit, best.agreement);
    const radius = (target.signal.size / 2) * target.signal.pitch;
    const moved = Math.hypot(dx, dy) + radius * (Math.abs(dTurn) + Math.abs(dScale));
    if (moved < settledCells * target.signal.pitch) break;
  }
  return result;
}

const agreementAt = (fit: PlanarFit, { correlation, cells, overlap }: Omit<Agreement, 'fit'>): Agreement => ({
  correlation,
  cells,
  overlap,
  fit,
});

const limit = (value: number, most: number): number => Math.max(-most, Math.min(most, value));

/**
 * One pass over the reference's cells: agreement at `fit`, and the normal equations h · move = g of the next step. With J a
 * cell's four slopes and a the reference's, b the subject's value, g = k ΣJb + c ΣJ − ΣJa, so that gain k and offset c may come last.
 */
function step(target: AlignTarget, subject: Signal, fit: PlanarFit) {
  const sums = sumsOf(target, subject)(fit);
  const [n, sa, sb, saa, sab, sbb] = sums;
  const covariance = sab - (sa * sb) / n;
  const varianceA = saa - (sa * sa) / n;
  const varianceB = sbb - (sb * sb) / n;
  const correlation = n > 2 && varianceA > 0 && varianceB > 0 ? covariance / Math.sqrt(varianceA * varianceB) : 0;
  const gain = varianceB > 0 ? covariance / varianceB : 0;
  const offset = n > 0 ? (sa - gain * sb) / n : 0;
  return {
    agreement: { correlation, cells: n, overlap: n / target.x.length },
    h: sums.slice(18),
    g: Float64Array.from({ length: 4 }, (_, r) => gain * sums[14 + r] + offset * sums[6 + r] - sums[10 + r]),
  };
}

/** Many places of one subject are tried on one reference: its sums are laid out once. */
function sumsOf(target: AlignTarget, subject: Signal): AlignSums {
  const known = lastSums.get(target);
  if (known?.subject === subject) return known.sums;
  const sums = alignSums(target, subject);
  lastSums.set(target, { subject, sums });
  return sums;
}
const lastSums = new WeakMap<AlignTarget, { readonly subject: Signal; readonly sums: AlignSums }>();

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
