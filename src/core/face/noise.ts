import { type HeightGrid, medianAbsoluteDeviation, sigmaFromMad } from '../geometry/index.ts';

/** Of the fourth difference z(−2L) − 4 z(−L) + 6 z − 4 z(L) + z(2L) of white noise: its variance is 70 σ². */
const varianceGain = 70;

/**
 * Scan noise (1 σ, mm) and the distance over which it is correlated, from the relief map alone.
 *
 * The fourth difference of a smooth surface nearly vanishes, of noise it does not; the median absolute deviation looks
 * at the quiet field and not at the strokes. Interpolation between vertices hides noise at a lag of one cell, relief
 * adds to it at long lags: the greatest of lags 1 and 2 is taken. Noise that is smooth over many cells cannot be told
 * from relief in one scan; a repeat scan measures it.
 * The length is that over which the difference has grown to 0.8 of its value at lag 2.
 */
export function noiseOf(detail: HeightGrid): { noiseMm: number; noiseLengthMm: number } {
  const [one, two] = [1, 2].map((lag) => noiseAtLag(detail, lag));
  return { noiseMm: Math.max(one, two), noiseLengthMm: (one < 0.8 * two ? 2 : 1) * detail.pitch };
}

/** What the fourth differences of a grid over so many cells show of its noise, 1 σ in its own unit; 0 of fewer than 20 of them. */
export function noiseAtLag(grid: HeightGrid, lag: number): number {
  const { width, height, z } = grid;
  const values = new Float64Array(z.length);
  let n = 0;
  const step = Math.max(1, Math.floor(Math.sqrt((width * height) / 40_000)));
  for (let row = 0; row < height; row += step) n = writeDifferences(grid, row, lag, step, values, n);
  if (n < 20) return 0;
  return (medianAbsoluteDeviation(values.subarray(0, n)) * sigmaFromMad) / Math.sqrt(varianceGain);
}

/** Fourth differences along a row where all five cells carry data, written from place n on; the next place. */
function writeDifferences(
  { width, z, mask }: HeightGrid,
  row: number,
  lag: number,
  step: number,
  values: Float64Array,
  n: number,
): number {
  let next = n;
  const end = (row + 1) * width - 2 * lag;
  for (let i = row * width + 2 * lag; i < end; i += step) {
    const a = i - 2 * lag;
    const b = i - lag;
    const c = i + lag;
    const d = i + 2 * lag;
    if (mask[a] === 1 && mask[b] === 1 && mask[i] === 1 && mask[c] === 1 && mask[d] === 1)
      values[next++] = z[a] - 4 * z[b] + 6 * z[i] - 4 * z[c] + z[d];
  }
  return next;
}
