import FFT from 'fft.js';

/**
 * Square two-dimensional Fourier transforms of one size, n a power of two. Arrays are interleaved (re, im), row-major.
 * Spectra are kept with rows and columns exchanged: correlation multiplies them place by place, so nobody minds, and
 * two of four transpositions are saved (a fifth of the time at n = 128).
 */
export interface Fft2d {
  readonly n: number;
  /** Σ f(r, c) exp(−2πi (r u + c v)/n) at (row v, column u), in place. */
  forward(data: Float64Array): void;
  /** From such a spectrum back to f(r, c), in place. */
  inverse(data: Float64Array): void;
}

export function fft2d(n: number): Fft2d {
  const line = new FFT(n);
  const from = new Float64Array(2 * n);
  const to = new Float64Array(2 * n);
  const rows = (data: Float64Array, transform: (out: Float64Array, input: Float64Array) => void): void => {
    for (let row = 0; row < n; row++) {
      const slice = data.subarray(row * 2 * n, (row + 1) * 2 * n);
      if (isZero(slice)) continue;
      from.set(slice);
      transform(to, from);
      slice.set(to);
    }
  };
  const both = (data: Float64Array, transform: (out: Float64Array, input: Float64Array) => void): void => {
    rows(data, transform);
    transposeComplex(data, n);
    rows(data, transform);
  };
  return {
    n,
    forward: (data) => both(data, (out, input) => line.transform(out, input)),
    inverse: (data) => both(data, (out, input) => line.inverseTransform(out, input)),
  };
}

/** Padding leaves many rows of a picture empty; their transform is empty too. */
function isZero(values: Float64Array): boolean {
  for (let i = 0; i < values.length; i++) if (values[i] !== 0) return false;
  return true;
}

function transposeComplex(data: Float64Array, n: number): void {
  for (let row = 0; row < n; row++)
    for (let col = row + 1; col < n; col++) {
      const a = 2 * (row * n + col);
      const b = 2 * (col * n + row);
      const re = data[a];
      const im = data[a + 1];
      data[a] = data[b];
      data[a + 1] = data[b + 1];
      data[b] = re;
      data[b + 1] = im;
    }
}
