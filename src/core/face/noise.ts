import { type HeightGrid, medianAbsoluteDeviation, sigmaFromMad } from '../geometry/index.ts';

/** Fourth difference z(−2L) − 4 z(−L) + 6 z − 4 z(L) + z(2L): of white noise its variance is 70 σ². */
const weights = [1, -4, 6, -4, 1];
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
  const [one, two] = [1, 2].map((lag) => fourthDifferenceSigma(detail, lag));
  return { noiseMm: Math.max(one, two), noiseLengthMm: (one < 0.8 * two ? 2 : 1) * detail.pitch };
}

function fourthDifferenceSigma({ width, height, z, mask }: HeightGrid, lag: number): number {
  const values = new Float64Array(z.length);
  let n = 0;
  const step = Math.max(1, Math.floor(Math.sqrt((width * height) / 40_000)));
  for (let row = 0; row < height; row += step)
    for (let col = 2 * lag; col < width - 2 * lag; col += step) {
      let sum = 0;
      let whole = true;
      for (let k = 0; k < 5; k++) {
        const i = row * width + col + (k - 2) * lag;
        whole &&= mask[i] === 1;
        sum += weights[k] * z[i];
      }
      if (whole) values[n++] = sum;
    }
  if (n < 20) return 0;
  return (medianAbsoluteDeviation(values.subarray(0, n)) * sigmaFromMad) / Math.sqrt(varianceGain);
}
