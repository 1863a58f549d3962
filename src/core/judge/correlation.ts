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
export const weightedAgreement = (
  va: Float32Array | Float64Array,
  vb: Float32Array | Float64Array,
  weight: Float32Array | Float64Array,
): [number, number, number, number] => agreementFrom(agreementSums(va, vb, weight));

/** … from its sums. */
export function agreementFrom(sums: Float64Array): [number, number, number, number] {
  const [seen, ta, tb, taa, tbb, n, sa, sb, saa, sab, sbb] = sums;
  const r = correlationOfSums(n, sa, sb, saa, sab, sbb) ?? 0;
  const rms = (sum: number, square: number): number => Math.sqrt(Math.max(0, square / seen - (sum / seen) ** 2));
  return [r, n / Math.max(1, seen), rms(ta, taa), rms(tb, tbb)];
}

/** Σ 1, a, b, a², b² over the cells where a is a number, then Σ w, wa, wb, wa², wab, wb². */
export function agreementSums(
  va: Float32Array | Float64Array,
  vb: Float32Array | Float64Array,
  weight: Float32Array | Float64Array,
): Float64Array {
  const sums = new Float64Array(11);
  for (let k = 0; k < va.length; k++) {
    const a = va[k];
    if (Number.isNaN(a)) continue;
    const b = vb[k];
    const w = weight[k];
    sums[0]++;
    sums[1] += a;
    sums[2] += b;
    sums[3] += a * a;
    sums[4] += b * b;
    sums[5] += w;
    sums[6] += w * a;
    sums[7] += w * b;
    sums[8] += w * (a * a);
    sums[9] += w * a * b;
    sums[10] += w * (b * b);
  }
  return sums;
}
