import { correlationOfSums, type HeightGrid } from '../geometry/index.ts';

export interface ArealAgreement {
  /** Pearson correlation of heights over the cells where both have data, −1 to 1. */
  readonly correlation: number;
  /** D_s = Σ(b − a)²/Σa², heights about their means: 0 for equal surfaces, 4 for b = −a. */
  readonly topographyDifference: number;
  readonly cells: number;
}

/**
 * Areal correlation and topography difference of two height grids on the same cells (Song and Vorburger 2006,
 * definitions from memory). a is the reference. `use` restricts to cells where it is 1.
 */
export function arealAgreement(a: HeightGrid, b: HeightGrid, use?: Uint8Array): ArealAgreement {
  let [n, sa, sb, saa, sab, sbb] = [0, 0, 0, 0, 0, 0];
  for (let i = 0; i < a.z.length; i++) {
    if (!(a.mask[i] && b.mask[i]) || (use && !use[i])) continue;
    const x = a.z[i];
    const y = b.z[i];
    n++;
    sa += x;
    sb += y;
    saa += x * x;
    sab += x * y;
    sbb += y * y;
  }
  const vaa = saa - (sa * sa) / n;
  const vbb = sbb - (sb * sb) / n;
  const vab = sab - (sa * sb) / n;
  if (!(n > 1 && vaa > 0 && vbb > 0)) return { correlation: 0, topographyDifference: Number.NaN, cells: n };
  return { correlation: vab / Math.sqrt(vaa * vbb), topographyDifference: (vaa + vbb - 2 * vab) / vaa, cells: n };
}

/** Weighted correlation, share of cells that kept weight, and RMS of both, all about their means. */
export function weightedAgreement(
  va: Float32Array | Float64Array,
  vb: Float32Array | Float64Array,
  weight: Float32Array | Float64Array,
): [number, number, number, number] {
  let [n, seen, sa, sb, saa, sab, sbb, ta, tb, taa, tbb] = [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0];
  for (let k = 0; k < va.length; k++) {
    if (Number.isNaN(va[k])) continue;
    const w = weight[k];
    seen++;
    ta += va[k];
    tb += vb[k];
    taa += va[k] ** 2;
    tbb += vb[k] ** 2;
    n += w;
    sa += w * va[k];
    sb += w * vb[k];
    saa += w * va[k] ** 2;
    sab += w * va[k] * vb[k];
    sbb += w * vb[k] ** 2;
  }
  const r = correlationOfSums(n, sa, sb, saa, sab, sbb) ?? 0;
  const rms = (sum: number, square: number): number => Math.sqrt(Math.max(0, square / seen - (sum / seen) ** 2));
  return [r, n / Math.max(1, seen), rms(ta, taa), rms(tb, tbb)];
}
