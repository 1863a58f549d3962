import { gaussianRows } from './gaussianRows.ts';
import { type HeightGrid, withHeights } from './heightGrid.ts';

/** α of the Gaussian profile and areal filters: at the cut-off wavelength half the amplitude passes. */
export const gaussianAlpha = Math.sqrt(Math.LN2 / Math.PI);

/** Standard deviation of the weighting function, in the unit of the cut-off: σ = α λc / √(2π) = 0.18739 λc. */
export const sigmaOfCutoff = (cutoffMm: number): number => (gaussianAlpha * cutoffMm) / Math.sqrt(2 * Math.PI);

/** Amplitude that the filter passes at a wavelength: exp(−π (α λc/λ)²) = 2^−(λc/λ)². */
export const gaussianTransmission = (wavelengthMm: number, cutoffMm: number): number =>
  2 ** -((cutoffMm / wavelengthMm) ** 2);

/**
 * Areal Gaussian low pass that looks only at cells with data.
 *
 * s(x, y) = 1/(α λc)² · exp(−π (x² + y²)/(α λc)²), and where data is missing the weights are brought back to sum 1:
 * out = Σ s·mask·z / Σ s·mask. Heights and cut-off in mm; the mask stays as it is (holes are not filled).
 *
 * Near an edge the mean is one-sided, so a tilted surface bends there by up to slope × 0.15 λc: remove the form first.
 * Cost does not depend on the cut-off (see gaussianRows.ts).
 * Source: ISO 16610-61 (areal Gaussian) with the constant of ISO 16610-21; normalised convolution after Knutsson and
 * Westin, Proc. IEEE CVPR 1993.
 */
export function gaussianFilter(grid: HeightGrid, cutoffMm: number): HeightGrid {
  const { mask, z } = grid;
  const sigma = sigmaOfCutoff(cutoffMm) / grid.pitch;
  const smooth = new Float32Array(z.length);
  if (!(sigma > 0.05)) {
    for (let i = 0; i < z.length; i++) smooth[i] = mask[i] ? z[i] : 0;
    return withHeights(grid, smooth);
  }
  const [sum, weight] = smoothMasked(grid, sigma);
  for (let i = 0; i < z.length; i++) smooth[i] = mask[i] ? sum[i] / weight[i] : 0;
  return withHeights(grid, smooth);
}

/**
 * Band pass: what a cut-off of `fromMm` lets through less what one of `toMm` lets through, so wavelengths between the
 * two are kept at half amplitude or more (for bands wide enough). `fromMm` 0 keeps the short end: a high pass.
 * `toMm` infinite keeps the long end.
 * Source: difference of two ISO 16610-61 filters, as an S-L surface of ISO 25178-3 is made.
 */
export function bandPass(grid: HeightGrid, fromMm: number, toMm: number): HeightGrid {
  const fine = gaussianFilter(grid, fromMm);
  if (toMm === Number.POSITIVE_INFINITY) return fine;
  const coarse = gaussianFilter(grid, toMm).z;
  for (let i = 0; i < coarse.length; i++) fine.z[i] -= coarse[i];
  return fine;
}

/** Σ g·mask·z and Σ g·mask over both directions, not normalised; σ in cells. */
function smoothMasked(grid: HeightGrid, sigma: number): [Float32Array, Float32Array] {
  const { width, height, z, mask } = grid;
  const size = width * height;
  const sum = new Float32Array(size);
  const weight = new Float32Array(size);
  for (let i = 0; i < size; i++)
    if (mask[i]) {
      sum[i] = z[i];
      weight[i] = 1;
    }
  gaussianRows(sum, weight, width, height, sigma);
  const sumAcross = new Float32Array(size);
  const weightAcross = new Float32Array(size);
  transpose(sum, sumAcross, width, height);
  transpose(weight, weightAcross, width, height);
  gaussianRows(sumAcross, weightAcross, height, width, sigma);
  transpose(sumAcross, sum, height, width);
  transpose(weightAcross, weight, height, width);
  return [sum, weight];
}

/** Rows to columns, in blocks that stay in the cache. */
function transpose(from: Float32Array, to: Float32Array, width: number, height: number): void {
  const block = 32;
  for (let r0 = 0; r0 < height; r0 += block)
    for (let c0 = 0; c0 < width; c0 += block) {
      const r1 = Math.min(height, r0 + block);
      const c1 = Math.min(width, c0 + block);
      for (let c = c0; c < c1; c++) for (let r = r0; r < r1; r++) to[c * height + r] = from[r * width + c];
    }
}
