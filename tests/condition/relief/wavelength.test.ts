import { describe, expect, it } from 'vitest';
import { wavelengthBands } from '../../../src/core/condition/relief/wavelength.ts';
import { gaussianFilter, type HeightGrid, seededRandom, sigmaOfCutoff } from '../../../src/core/geometry/index.ts';

const n = 256;
const pitch = 0.1;
const size = n * pitch;

function noiseGrid(seed: number, sd = 1): HeightGrid {
  const random = seededRandom(seed);
  const z = Float32Array.from({ length: n * n }, () => sd * random.normal());
  return { width: n, height: n, pitch, left: 0, top: size, z, mask: new Uint8Array(n * n).fill(1) };
}

const plus = (a: HeightGrid, b: HeightGrid): HeightGrid => ({ ...a, z: a.z.map((value, i) => value + b.z[i]) });

describe('wavelengthBands', () => {
  it('gives gain and coherence 1 for a surface against itself, and the factor for a lower copy', () => {
    const a = noiseGrid(1);
    for (const band of wavelengthBands(a, a, size)) {
      expect(band.gain).toBeCloseTo(1, 6);
      expect(band.coherence).toBeCloseTo(1, 6);
    }
    const lower = { ...a, z: a.z.map((value) => 0.6 * value) };
    for (const band of wavelengthBands(a, lower, size)) expect(band.gain).toBeCloseTo(0.6, 5);
  });

  it('finds half the amplitude at 5.336 σ of a Gaussian blur (transmission of a Gaussian, calculated)', () => {
    // exp(−2 π² σ²/λ²) = 1/2 at λ = π σ √(2/ln 2) = 5.336 σ; σ is chosen so that this falls in the middle of an octave.
    const a = noiseGrid(2);
    const cutoff = 0.8 * Math.SQRT2;
    const sigma = sigmaOfCutoff(cutoff);
    expect(5.336 * sigma).toBeCloseTo(cutoff, 3);
    const b = gaussianFilter(a, cutoff);
    for (const { fromMm, toMm, gain } of wavelengthBands(a, b, size)) {
      // The octave's modes lie densest at its short end: the mean gain over the annulus, with weights from its area.
      let [sum, weight] = [0, 0];
      for (let k = 0; k < 400; k++) {
        const f = 1 / toMm + ((k + 0.5) / 400) * (1 / fromMm - 1 / toMm);
        sum += f * Math.exp(-2 * (Math.PI * sigma * f) ** 2);
        weight += f;
      }
      expect(gain).toBeGreaterThan(sum / weight - 0.02);
      expect(gain).toBeLessThan(sum / weight + 0.02);
    }
  });

  it('finds coherence 0.8 where one side carries noise of a quarter of the power (a²/(a² + n²), calculated)', () => {
    const a = noiseGrid(3);
    const b = plus(a, noiseGrid(4, 0.5));
    for (const { coherence, gain } of wavelengthBands(a, b, size)) {
      expect(coherence).toBeGreaterThan(0.76);
      expect(coherence).toBeLessThan(0.84);
      expect(Math.abs(gain - 1)).toBeLessThan(0.06);
    }
  });

  it('takes the noise of the reference out of the gain', () => {
    const truth = noiseGrid(5);
    const a = plus(truth, noiseGrid(6, 0.5));
    for (const { gain } of wavelengthBands(a, truth, size)) expect(gain).toBeLessThan(0.86);
    for (const { gain } of wavelengthBands(a, truth, size, { reference: 0.5, subject: 0 }))
      expect(Math.abs(gain - 1)).toBeLessThan(0.07);
  });

  it('does not see what lies outside the common data, and covers two cells to a fifth of the face', () => {
    const a = noiseGrid(7);
    const b = noiseGrid(8);
    const mask = a.mask.map((_, i) => (i % n < n / 2 ? 1 : 0));
    const joined: HeightGrid = { ...a, z: a.z.map((value, i) => (mask[i] ? value : b.z[i])), mask };
    const bands = wavelengthBands(a, joined, size);
    for (const { gain, coherence } of bands) {
      expect(gain).toBeCloseTo(1, 5);
      expect(coherence).toBeCloseTo(1, 5);
    }
    expect(bands[0].fromMm).toBeCloseTo(2 * pitch, 9);
    expect(bands[bands.length - 1].toMm).toBeCloseTo(size / 5, 9);
  });
});
