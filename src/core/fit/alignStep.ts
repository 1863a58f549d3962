import { alignStepKernel } from '../../kernels/index.ts';
import type { Signal } from './bandPassed.ts';
import { affineOf, invertAffine, type PlanarFit } from './similarity2d.ts';

/** A reference's cells with data: places, mm from the middle, values, and how each value changes with the four freedoms. */
export interface AlignCells {
  readonly x: Float32Array;
  readonly y: Float32Array;
  readonly value: Float32Array;
  /** With turn (1/rad), size (1), and shift in x and y (1/mm): four numbers a cell. */
  readonly slopes: Float32Array;
}

/**
 * Sums over the cells that the subject covers under a fit. With a the reference's value, b the subject's, J the four slopes:
 * count, Σa, Σb, Σa², Σab, Σb², ΣJ (4), ΣaJ (4), ΣbJ (4), ΣJJᵀ (16, row-major).
 */
export type AlignSums = (fit: PlanarFit) => Float64Array;

/**
 * The sums of a subject on a reference; by a compiled kernel where the engine lets it run, which gives the same numbers but for the
 * rounding of places and products to float32.
 */
export function alignSums(cells: AlignCells, subject: Signal): AlignSums {
  const seen = subject.value.map((value, i) => (subject.mask[i] ? value : Number.NaN));
  const kernel = alignStepKernel(cells, seen, subject.size);
  if (!kernel) return plainSums(cells, subject);
  return (fit) => {
    kernel.ask.set(toCells(subject, fit));
    kernel.sums();
    return kernel.out;
  };
}

/** The same without the kernel. */
export function plainSums({ x, y, value, slopes }: AlignCells, subject: Signal): AlignSums {
  const out = new Float64Array(34);
  return (fit) => {
    const under = samplerUnder(subject, fit);
    out.fill(0);
    for (let k = 0; k < x.length; k++) {
      const b = under(x[k], y[k]);
      if (Number.isNaN(b)) continue;
      const a = value[k];
      out[0]++;
      out[1] += a;
      out[2] += b;
      out[3] += a * a;
      out[4] += a * b;
      out[5] += b * b;
      for (let r = 0; r < 4; r++) {
        const j = slopes[4 * k + r];
        out[6 + r] += j;
        out[10 + r] += j * a;
        out[14 + r] += j * b;
        for (let c = 0; c < 4; c++) out[18 + 4 * r + c] += j * slopes[4 * k + c];
      }
    }
    return out;
  };
}

/** Column = ux x + uy y + u0 + middle, row = middle − (vx x + vy y + v0); the values' sign last. */
function toCells({ pitch }: Signal, fit: PlanarFit): number[] {
  const { a, b, tx, c, d, ty } = invertAffine(affineOf(fit));
  return [...[a, b, tx, c, d, ty].map((value) => value / pitch), fit.negate ? -1 : 1];
}

/** The subject's value at a place of the reference, mm; NaN where it has no data. */
function samplerUnder(subject: Signal, fit: PlanarFit): (x: number, y: number) => number {
  const [ux, uy, u0, vx, vy, v0, sign] = toCells(subject, fit);
  const middle = (subject.size - 1) / 2;
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
