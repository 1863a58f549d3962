import { gaussianSum, type HeightGrid, median, sigmaFromMad, sigmaOfCutoff, withHeights } from '../geometry/index.ts';

export const scaleDefaults = {
  /** Standard deviations of the Gaussian means that changes are sought in, mm. */
  sigmasMm: [0.2, 0.4, 0.8, 1.6],
  /** Chance of any false region over the whole face and all scales. */
  rate: 0.05,
};

/** The mean difference about every cell, and how far it stands out of its own noise. */
export interface ScaleMap {
  readonly sigmaMm: number;
  /** Weighted mean, mm. */
  readonly mean: Float32Array;
  /** In standard deviations of white noise. */
  readonly t: Float32Array;
  /** What is left after so much averaging over what white noise would leave: noise that neighbours share. */
  readonly inflation: number;
}

/** Cut-off of the Gaussian filter whose standard deviation is given, mm. */
export const cutoffOf = (sigmaMm: number): number => sigmaMm / sigmaOfCutoff(1);

/**
 * m = Σ g w d / Σ g w and t = Σ g w d / √(Σ g² w), w = 1/σ² on cells that count, g a Gaussian about each cell; g² is one of σ/√2.
 */
export function scaleMap(grid: HeightGrid, sigma: Float32Array, sigmaMm: number, changed: Uint8Array | null): ScaleMap {
  const weight = sigma.map((s, i) => (grid.mask[i] && s > 0 ? 1 / s ** 2 : 0));
  const weighted = withHeights(
    grid,
    grid.z.map((d, i) => weight[i] * d),
  );
  const sum = gaussianSum(weighted, sigmaMm);
  const all = gaussianSum(withHeights(grid, weight), sigmaMm);
  const squared = gaussianSum(withHeights(grid, weight), sigmaMm / Math.SQRT2);
  const mean = sum.map((value, i) => (grid.mask[i] && all[i] > 0 ? value / all[i] : 0));
  const t = sum.map((value, i) => (grid.mask[i] && squared[i] > 0 ? value / Math.sqrt(squared[i]) : 0));
  return { sigmaMm, mean, t, inflation: spread(t, (i) => grid.mask[i] === 1 && !changed?.[i]) };
}

function spread(t: Float32Array, counts: (i: number) => boolean): number {
  const sizes = t.map(Math.abs).filter((_, i) => counts(i));
  return sizes.length > 0 ? Math.max(1, sigmaFromMad * median(sizes)) : 1;
}

/**
 * The height that a smooth Gaussian field passes anywhere on an area with the chance `rate`, in its standard deviations:
 * the expected number of its peaks above u is A λ (2π)^(−3/2) u exp(−u²/2), λ = 1/2σ² for white noise smoothed by σ; both
 * signs count. Source: Adler, The Geometry of Random Fields, 1981; Worsley et al., J. Cereb. Blood Flow Metab. 12, 1992.
 */
export function leastPeak(areaMm2: number, sigmaMm: number, rate: number): number {
  const peaks = (u: number): number =>
    ((2 * areaMm2) / (2 * sigmaMm ** 2)) * (2 * Math.PI) ** -1.5 * u * Math.exp(-(u ** 2) / 2);
  let [low, high] = [1, 40];
  for (let k = 0; k < 50; k++) {
    const middle = (low + high) / 2;
    if (peaks(middle) > rate) low = middle;
    else high = middle;
  }
  return high;
}
