import { type Fft2d, fft2d, report, type Watch } from '../geometry/index.ts';
import type { Signal } from './bandPassed.ts';
import type { PlanarFit } from './similarity2d.ts';

export const coarseDefaults = {
  /** Turns tried around the circle: 5° apart, 2.8 cells at the rim of a 64-cell face at most 1.4 off. */
  turns: 72,
  /** Sizes tried; the search reaches about 4 % beyond each. Most pairs shrink by 0 to 3 %. */
  scales: [0.94, 1.01, 1.08],
  /** Side of the transform. */
  transform: 128,
};

/** A place where the two signals agree, and their correlation there over the whole faces, −1 to 1. */
export interface CoarsePeak {
  readonly fit: PlanarFit;
  readonly score: number;
}

/**
 * Every turn, size and shift of the subject's signal against the reference's, by Fourier transform.
 *
 * For each turn and size the subject g and its turned-over self h(x, y) = −g(−x, y) are packed into one complex
 * picture g + i h; one transform and one inverse give both correlations, Σ A(x) g(x − d) as the real part and
 * −Σ A(x) h(x − d) as the imaginary part. Their negative peaks are the two reflections, which cost nothing more and
 * are returned apart, since a reflection is tried only after both proper ways fail.
 */
export function coarseSearch(reference: Signal, subject: Signal, options = coarseDefaults, watch: Watch = {}) {
  const { transform: n, turns, scales } = options;
  const fft = fft2d(n);
  const spectrum = spectrumOf(reference, fft);
  const energy = Math.sqrt(energyOf(reference.value));
  const proper: CoarsePeak[] = [];
  const reflected: CoarsePeak[] = [];
  for (let k = 0; k < turns; k++) {
    report(watch, k / turns, 'Searching all turns');
    const turn = (2 * Math.PI * k) / turns;
    for (const scale of scales) {
      const packed = correlate(spectrum, subject, turn, scale, fft);
      const norm = 1 / (energy * packed.energy || 1);
      const place = (at: number) => ({
        tx: wrap(at % n, n) * reference.pitch,
        ty: -wrap(Math.floor(at / n), n) * reference.pitch,
      });
      const best = extremes(packed.data);
      const peak = (at: number, value: number, flipX: boolean, negate: boolean): CoarsePeak => ({
        fit: { flipX, negate, turn, scale, ...place(at) },
        score: Math.abs(value) * norm,
      });
      proper.push(peak(best.reMostAt, best.reMost, false, false), peak(best.imLeastAt, best.imLeast, true, true));
      reflected.push(peak(best.reLeastAt, best.reLeast, false, true), peak(best.imMostAt, best.imMost, true, false));
    }
  }
  return { proper: bestFirst(proper), reflected: bestFirst(reflected) };
}

const bestFirst = (peaks: CoarsePeak[]): CoarsePeak[] => peaks.sort((a, b) => b.score - a.score);
const wrap = (index: number, n: number): number => (index > n / 2 ? index - n : index);

export function spectrumOf(signal: Signal, fft: Fft2d): Float64Array {
  const data = new Float64Array(2 * fft.n * fft.n);
  for (let row = 0, i = 0; row < signal.size; row++)
    for (let col = 0; col < signal.size; col++, i++) data[2 * (row * fft.n + col)] = signal.value[i];
  fft.forward(data);
  return data;
}

function energyOf(values: Float32Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i] * values[i];
  return sum;
}

/** The packed correlation at one turn and size, and the root energy of the turned subject. */
export function correlate(spectrum: Float64Array, subject: Signal, turn: number, scale: number, fft: Fft2d) {
  const { n } = fft;
  const { size } = subject;
  const data = new Float64Array(2 * n * n);
  const turned = turnSignal(subject, turn, scale);
  for (let row = 0; row < size; row++)
    for (let col = 0; col < size; col++) {
      const at = 2 * (row * n + col);
      data[at] = turned[row * size + col];
      data[at + 1] = -turned[row * size + size - 1 - col];
    }
  fft.forward(data);
  for (let i = 0; i < data.length; i += 2) {
    const re = spectrum[i] * data[i] + spectrum[i + 1] * data[i + 1];
    data[i + 1] = spectrum[i + 1] * data[i] - spectrum[i] * data[i + 1];
    data[i] = re;
  }
  fft.inverse(data);
  return { data, energy: Math.sqrt(energyOf(turned)) };
}

/** The signal turned counter-clockwise and grown about its middle, bilinear. */
function turnSignal({ size, value }: Signal, turn: number, scale: number): Float32Array {
  const out = new Float32Array(size * size);
  const middle = (size - 1) / 2;
  const c = Math.cos(turn) / scale;
  const s = Math.sin(turn) / scale;
  for (let row = 0, i = 0; row < size; row++)
    for (let col = 0; col < size; col++, i++) {
      const x = col - middle;
      const y = middle - row;
      const u = c * x + s * y + middle;
      const v = middle - (-s * x + c * y);
      const u0 = Math.floor(u);
      const v0 = Math.floor(v);
      if (u0 < 0 || v0 < 0 || u0 >= size - 1 || v0 >= size - 1) continue;
      const j = v0 * size + u0;
      const fu = u - u0;
      const fv = v - v0;
      out[i] =
        (1 - fv) * ((1 - fu) * value[j] + fu * value[j + 1]) +
        fv * ((1 - fu) * value[j + size] + fu * value[j + size + 1]);
    }
  return out;
}

/** Greatest and least real and imaginary parts of an interleaved picture, and where they are. */
function extremes(data: Float64Array) {
  const best = { reMost: 0, reMostAt: 0, reLeast: 0, reLeastAt: 0, imMost: 0, imMostAt: 0, imLeast: 0, imLeastAt: 0 };
  for (let i = 0, k = 0; i < data.length; i += 2, k++) {
    const re = data[i];
    const im = data[i + 1];
    if (re > best.reMost) [best.reMost, best.reMostAt] = [re, k];
    else if (re < best.reLeast) [best.reLeast, best.reLeastAt] = [re, k];
    if (im > best.imMost) [best.imMost, best.imMostAt] = [im, k];
    else if (im < best.imLeast) [best.imLeast, best.imLeastAt] = [im, k];
  }
  return best;
}
