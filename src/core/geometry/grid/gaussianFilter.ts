import { gaussianMean } from '../../../kernels/index.ts';
import { gaussianRows, gaussianWeights } from './gaussianRows.ts';
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
  if (!(sigma > 0.05))
    return withHeights(
      grid,
      z.map((value, i) => (mask[i] ? value : 0)),
    );
  return withHeights(grid, gaussianMean(grid, gaussianWeights(sigma)) ?? gaussianMeanPlainly(grid, sigma));
}

/** Σ s·mask·z / Σ s·mask without the kernel, which gives the same numbers; σ in cells. */
export function gaussianMeanPlainly(grid: HeightGrid, sigma: number): Float32Array {
  const { mask } = grid;
  const [sum, weight] = smoothMasked(grid, sigma);
  for (let i = 0; i < sum.length; i++) sum[i] = mask[i] ? sum[i] / weight[i] : 0;
  return sum;
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
  takeOff(fine.z, coarse);
  return fine;
}

/** By itself: a function that runs a long loop is compiled with all that it calls besides. */
function takeOff(z: Float32Array, other: Float32Array): void {
  for (let i = 0; i < z.length; i++) z[i] -= other[i];
}

/** Σ g z over the cells with data, g = exp(−r²/2σ²) with g(0) = 1: not divided by anything, nothing beyond the grid; σ in mm. */
export const gaussianSum = (grid: HeightGrid, sigmaMm: number): Float32Array =>
  smoothMasked(grid, sigmaMm / grid.pitch)[0];

/** Σ g·mask·z and Σ g·mask over both directions, not normalised; σ in cells. */
function smoothMasked(grid: HeightGrid, sigma: number): [Float32Array, Float32Array] {
  const { width, height, z, mask } = grid;
  const sum = new Float32Array(z.length);
  const weight = new Float32Array(z.length);
  for (let i = 0; i < z.length; i++) {
    sum[i] = mask[i] ? z[i] : 0;
    weight[i] = mask[i];
  }
  gaussianRows(sum, weight, width, height, sigma);
  gaussianColumns(sum, weight, width, height, sigma);
  return [sum, weight];
}

/** The same down the columns, a strip of columns at a time, turned into rows in a scratch that stays in the cache. */
function gaussianColumns(a: Float32Array, b: Float32Array, width: number, height: number, sigma: number): void {
  const strip = Math.min(16, width);
  const scratchA = new Float32Array(strip * height);
  const scratchB = new Float32Array(strip * height);
  for (let c0 = 0; c0 < width; c0 += strip) {
    const n = Math.min(strip, width - c0);
    for (let r = 0; r < height; r++)
      for (let k = 0; k < n; k++) {
        scratchA[k * height + r] = a[r * width + c0 + k];
        scratchB[k * height + r] = b[r * width + c0 + k];
      }
    gaussianRows(scratchA, scratchB, height, n, sigma);
    for (let r = 0; r < height; r++)
      for (let k = 0; k < n; k++) {
        a[r * width + c0 + k] = scratchA[k * height + r];
        b[r * width + c0 + k] = scratchB[k * height + r];
      }
  }
}
