import { distanceTransform, fft2d, type HeightGrid } from '../../geometry/index.ts';
import type { WavelengthBand } from '../types.ts';

export const wavelengthDefaults = {
  /** Width of the taper along every edge of the common data, as a share of the longest wavelength. */
  taper: 0.35,
  /** Bands with fewer Fourier modes are left out. */
  leastModes: 12,
};

/** White noise of each scan on one cell, 1 σ, mm. */
export interface ScanNoise {
  readonly reference: number;
  readonly subject: number;
}

/**
 * Gain and coherence of the subject's relief against the reference's in octaves of wavelength, from two cells to a
 * fifth of the face. With S the spectra summed over the Fourier modes of an octave,
 *
 *   gain = Re S_ab / (S_aa − N_a),   coherence = |S_ab|² / (S_aa S_bb),
 *
 * N_a the power of the reference's noise, since noise in the reference would lower the gain (errors in variables). One
 * transform of the whole face; `known` is the noise that amplitude = √((S_bb − N_b)/(S_aa − N_a)) and signal = (S_aa − N_a)/S_aa
 * are freed of: both grids less their mean, times a cosine taper that falls to 0 at every edge of the common
 * data; the octave's modes take the place of Welch's tiles. Same cells, same sense, mm.
 * Source: Bendat and Piersol, Random Data, ch. 6 (from memory); Welch 1967 for the taper's part.
 */
export function wavelengthBands(
  a: HeightGrid,
  b: HeightGrid,
  sizeMm: number,
  noise: ScanNoise = { reference: 0, subject: 0 },
  known: ScanNoise = noise,
  options = wavelengthDefaults,
): WavelengthBand[] {
  const bands = octaves(2 * a.pitch, sizeMm / 5);
  if (bands.length === 0) return [];
  const window = taperOf(a, b, options.taper * bands[bands.length - 1].toMm);
  const sums = spectra(a, b, window, bands);
  const tapered = window.reduce((sum, w) => sum + w * w, 0);
  const noisePower = noise.reference ** 2 * tapered;
  return bands.flatMap(({ fromMm, toMm }, k) => {
    const { modes, aa, bb, re, im } = sums[k];
    if (modes < options.leastModes || !(aa > 0 && bb > 0)) return [];
    // No more than nine tenths of the power is ever taken for noise: beyond that the gain would mean nothing.
    const clean = aa - Math.min(0.9 * aa, noisePower * modes);
    const relief = Math.max(0, aa - known.reference ** 2 * tapered * modes);
    const left = Math.max(0, bb - known.subject ** 2 * tapered * modes);
    return [
      {
        fromMm,
        toMm,
        gain: re / clean,
        coherence: (re * re + im * im) / (aa * bb),
        amplitude: relief > 0 ? Math.sqrt(left / relief) : Number.NaN,
        signal: relief / aa,
      },
    ];
  });
}

function octaves(fromMm: number, toMm: number): { fromMm: number; toMm: number }[] {
  const list: { fromMm: number; toMm: number }[] = [];
  for (let low = fromMm; low < 0.75 * toMm; low *= 2) list.push({ fromMm: low, toMm: Math.min(2 * low, toMm) });
  return list;
}

/** Half a cosine from the edge of the common data inward. */
function taperOf(a: HeightGrid, b: HeightGrid, widthMm: number): Float32Array {
  const { width } = a;
  const height = a.mask.length / width;
  const both = a.mask.map((m, i) => {
    const col = i % width;
    const row = Math.floor(i / width);
    return m && b.mask[i] && col > 0 && row > 0 && col < width - 1 && row < height - 1 ? 1 : 0;
  });
  const reach = widthMm / a.pitch;
  return distanceTransform(both, width).map((cells) =>
    cells <= 0 ? 0 : cells >= reach ? 1 : 0.5 - 0.5 * Math.cos((Math.PI * cells) / reach),
  );
}

interface Sums {
  modes: number;
  aa: number;
  bb: number;
  re: number;
  im: number;
}

/** Both grids in one complex transform: f = a + i b, A(k) = (F(k) + F*(−k))/2, B(k) = (F(k) − F*(−k))/2i. */
function spectra(
  a: HeightGrid,
  b: HeightGrid,
  window: Float32Array,
  bands: readonly { fromMm: number; toMm: number }[],
): Sums[] {
  const n = 2 ** Math.ceil(Math.log2(Math.max(a.width, a.height)));
  const [meanA, meanB] = [a, b].map((grid) => weightedMean(grid, window));
  const f = new Float64Array(2 * n * n);
  for (let row = 0, i = 0; row < a.height; row++)
    for (let col = 0; col < a.width; col++, i++) {
      if (window[i] === 0) continue;
      const at = 2 * (row * n + col);
      f[at] = window[i] * (a.z[i] - meanA);
      f[at + 1] = window[i] * (b.z[i] - meanB);
    }
  fft2d(n).forward(f);
  const sums = bands.map((): Sums => ({ modes: 0, aa: 0, bb: 0, re: 0, im: 0 }));
  for (let row = 0; row < n; row++)
    for (let col = 0; col < n; col++) {
      const u = row <= n / 2 ? row : row - n;
      const v = col <= n / 2 ? col : col - n;
      const wavelength = (n * a.pitch) / Math.sqrt(u * u + v * v);
      let k = 0;
      while (k < bands.length && !(wavelength >= bands[k].fromMm && wavelength < bands[k].toMm)) k++;
      if (k < bands.length) addMode(sums[k], f, 2 * (row * n + col), 2 * (((n - row) % n) * n + ((n - col) % n)));
    }
  return sums;
}

function addMode(sum: Sums, f: Float64Array, at: number, opposite: number): void {
  const ar = (f[at] + f[opposite]) / 2;
  const ai = (f[at + 1] - f[opposite + 1]) / 2;
  const br = (f[at + 1] + f[opposite + 1]) / 2;
  const bi = (f[opposite] - f[at]) / 2;
  sum.modes++;
  sum.aa += ar * ar + ai * ai;
  sum.bb += br * br + bi * bi;
  sum.re += ar * br + ai * bi;
  sum.im += ai * br - ar * bi;
}

function weightedMean({ z }: HeightGrid, window: Float32Array): number {
  let [sum, weight] = [0, 1e-30];
  for (let i = 0; i < z.length; i++) {
    sum += window[i] * z[i];
    weight += window[i];
  }
  return sum / weight;
}
