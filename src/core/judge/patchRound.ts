import { type PatchArrays, type PatchKernel, patchKernel } from '../../kernels/index.ts';
import type { HeightGrid } from '../geometry/index.ts';
import { agreementSums } from './correlation.ts';

/** The cells of a patch, columns and rows from its middle, and the reference's heights there. */
export interface PatchCells {
  readonly columns: Float32Array;
  readonly rows: Float32Array;
  readonly heights: Float32Array;
}

/**
 * What each round of `registerPatch` does over the cells of a patch: samples the subject, weighs what is left by Tukey's function
 * (constant 4.685) about the median deviation, sums up the normal equations of the model a(p) = gain · b(p + shift + turn) + height.
 * Unknowns: column shift, row shift, turn, gain, height. By a compiled kernel where the engine lets it run, on float32; `patchRoundPlainly` is
 * its referee.
 */
export function patchRound(subject: HeightGrid, cells: PatchCells): PatchArrays {
  return kernelOf(subject)?.(cells.columns, cells.rows, cells.heights) ?? patchRoundPlainly(subject, cells);
}

/** Many patches are looked for on one subject. */
const kernels = new WeakMap<HeightGrid, { readonly kernel: PatchKernel | null }>();

function kernelOf(subject: HeightGrid): PatchKernel | null {
  const known = kernels.get(subject) ?? { kernel: patchKernel(subject) };
  kernels.set(subject, known);
  return known.kernel;
}

/** The same without the kernel, on float64. */
export function patchRoundPlainly(subject: HeightGrid, cells: PatchCells): PatchArrays {
  const n = cells.heights.length;
  const arrays = (): Float32Array => new Float32Array(n);
  const work: Work = { ...cells, a: arrays(), b: arrays(), gx: arrays(), gy: arrays(), weight: arrays() };
  const out = new Float64Array(20);
  return {
    ...work,
    sample: (col, row, turn) => sampleAll(subject, work, col, row, turn),
    reweigh: (gain, level) => reweigh(work, gain, level),
    equations: (gain, level) => {
      addUp(work, gain, level, out);
      return out;
    },
    clipped: (mostA, mostB) => clippedSums(work, mostA, mostB),
    agreement: () => agreementSums(work.a, work.b, work.weight),
  };
}

interface Work extends PatchCells {
  readonly a: Float32Array;
  readonly b: Float32Array;
  readonly gx: Float32Array;
  readonly gy: Float32Array;
  readonly weight: Float32Array;
}

/** Values of both reliefs and the subject's gradient at each cell of the patch; NaN where the subject has none. */
function sampleAll({ width, height, z, mask }: HeightGrid, work: Work, col: number, row: number, turn: number): number {
  const { columns, rows, heights, a, b, gx, gy } = work;
  let seen = 0;
  for (let k = 0; k < heights.length; k++) {
    const c = col + columns[k] - turn * rows[k];
    const r = row + rows[k] + turn * columns[k];
    const c0 = Math.floor(c);
    const r0 = Math.floor(r);
    a[k] = Number.NaN;
    if (c0 < 0 || r0 < 0 || c0 >= width - 1 || r0 >= height - 1) continue;
    const j = r0 * width + c0;
    if (!(mask[j] && mask[j + 1] && mask[j + width] && mask[j + width + 1])) continue;
    const u = c - c0;
    const v = r - r0;
    const p = z[j];
    const q = z[j + 1];
    const s = z[j + width];
    const t = z[j + width + 1];
    a[k] = heights[k];
    b[k] = (1 - v) * ((1 - u) * p + u * q) + v * ((1 - u) * s + u * t);
    gx[k] = (1 - v) * (q - p) + v * (t - s);
    gy[k] = (1 - u) * (s - p) + u * (t - q);
    seen++;
  }
  return seen;
}

/** Added to σ: what lies within float32 of the model is not told apart; the same number stands in the kernel. */
const leastSigmaMm = 1e-6;

function reweigh({ a, b, weight }: Work, gain: number, level: number): number {
  const left = new Float64Array(a.length);
  let seen = 0;
  for (let k = 0; k < a.length; k++) if (!Number.isNaN(a[k])) left[seen++] = Math.abs(a[k] - gain * b[k] - level);
  const sigma = 1.4826 * left.subarray(0, seen).sort()[seen >> 1] + leastSigmaMm;
  for (let k = 0; k < a.length; k++) {
    const r = Number.isNaN(a[k]) ? Number.POSITIVE_INFINITY : Math.abs(a[k] - gain * b[k] - level) / (4.685 * sigma);
    weight[k] = r < 1 ? (1 - r * r) ** 2 : 0;
  }
  return sigma;
}

function addUp({ columns, rows, a, b, gx, gy, weight }: Work, gain: number, level: number, out: Float64Array): void {
  out.fill(0);
  const j = new Float64Array(5);
  for (let k = 0; k < a.length; k++) {
    const w = weight[k];
    if (!(w > 0)) continue;
    j[0] = gain * gx[k];
    j[1] = gain * gy[k];
    j[2] = gain * (columns[k] * gy[k] - rows[k] * gx[k]);
    j[3] = b[k];
    j[4] = 1;
    const r = a[k] - gain * b[k] - level;
    for (let p = 0, at = 0; p < 5; p++) {
      out[15 + p] += w * j[p] * r;
      for (let q = 0; q <= p; q++, at++) out[at] += w * j[p] * j[q];
    }
  }
}

/** Σ 1, a, b, ab, b² over the cells that are seen, both clipped. */
export function clippedSums({ a, b }: Pick<Work, 'a' | 'b'>, mostA: number, mostB: number): Float64Array {
  const sums = new Float64Array(5);
  for (let k = 0; k < a.length; k++) {
    if (Number.isNaN(a[k])) continue;
    const p = Math.max(-mostA, Math.min(mostA, a[k]));
    const q = Math.max(-mostB, Math.min(mostB, b[k]));
    sums[0]++;
    sums[1] += p;
    sums[2] += q;
    sums[3] += p * q;
    sums[4] += q * q;
  }
  return sums;
}
