import { describe, expect, it } from 'vitest';
import {
  bandPass,
  emptyGrid,
  gaussianFilter,
  gaussianTransmission,
  type HeightGrid,
  seededRandom,
  sigmaOfCutoff,
} from '../../../src/core/geometry/index.ts';

function filled(width: number, height: number, pitch: number, heightAt: (x: number, y: number) => number): HeightGrid {
  const grid = emptyGrid(0, (width - 1) * pitch, 0, (height - 1) * pitch, pitch);
  grid.mask.fill(1);
  for (let r = 0; r < grid.height; r++)
    for (let c = 0; c < grid.width; c++) grid.z[r * grid.width + c] = heightAt(c * pitch, -r * pitch);
  return grid;
}

/** Amplitude of a sine along x in the middle rows, by projection on whole periods far from the ends. */
function amplitude(grid: HeightGrid, wavelength: number): number {
  const periods = Math.floor((grid.width * grid.pitch) / wavelength / 3);
  const n = Math.round((periods * wavelength) / grid.pitch);
  const c0 = Math.floor((grid.width - n) / 2);
  const row = Math.floor(grid.height / 2) * grid.width;
  let s = 0;
  let k = 0;
  for (let c = c0; c < c0 + n; c++) {
    const phase = (2 * Math.PI * c * grid.pitch) / wavelength;
    s += grid.z[row + c] * Math.sin(phase);
    k += grid.z[row + c] * Math.cos(phase);
  }
  return (2 / n) * Math.hypot(s, k);
}

/** Normalised convolution straight from the definition. */
function bruteForce(grid: HeightGrid, cutoff: number): Float64Array {
  const sigma = sigmaOfCutoff(cutoff) / grid.pitch;
  const radius = Math.ceil(6 * sigma);
  const out = new Float64Array(grid.z.length);
  for (let r = 0; r < grid.height; r++)
    for (let c = 0; c < grid.width; c++) {
      let sum = 0;
      let weight = 0;
      for (let y = Math.max(0, r - radius); y <= Math.min(grid.height - 1, r + radius); y++)
        for (let x = Math.max(0, c - radius); x <= Math.min(grid.width - 1, c + radius); x++) {
          const i = y * grid.width + x;
          if (!grid.mask[i]) continue;
          const w = Math.exp(-((x - c) ** 2 + (y - r) ** 2) / (2 * sigma * sigma));
          sum += w * grid.z[i];
          weight += w;
        }
      out[r * grid.width + c] = sum / weight;
    }
  return out;
}

function noisyWithHoles(seed: number): HeightGrid {
  const random = seededRandom(seed);
  const grid = filled(61, 47, 0.1, () => random.normal());
  for (let i = 0; i < grid.z.length; i++)
    if (random.next() < 0.3 || (i % 61 > 20 && i % 61 < 34 && i > 61 * 15 && i < 61 * 30)) {
      grid.mask[i] = 0;
      grid.z[i] = 0;
    }
  return grid;
}

describe('gaussianFilter', () => {
  it('keeps σ at 0.18739 of the cut-off (constant of ISO 16610-21)', () => {
    expect(sigmaOfCutoff(1)).toBeCloseTo(0.18739, 5);
  });

  // α = √(ln 2/π): sine at half, once and twice the cut-off keeps 2⁻⁴, 2⁻¹, 2^−¼ (ISO 16610-61).
  for (const cutoff of [0.5, 2, 8])
    for (const [ratio, expected] of [
      [0.5, 0.0625],
      [1, 0.5],
      [2, 0.8409],
    ])
      it(`passes ${expected} at ${ratio} × cut-off ${cutoff} mm`, () => {
        const wavelength = ratio * cutoff;
        const grid = filled(2200, 3, 0.05, (x) => Math.sin((2 * Math.PI * x) / wavelength));
        expect(amplitude(gaussianFilter(grid, cutoff), wavelength)).toBeCloseTo(expected, 3);
        expect(gaussianTransmission(wavelength, cutoff)).toBeCloseTo(expected, 4);
      });

  for (const cutoff of [0.3, 0.9, 1.3, 3])
    it(`agrees with the plain sum over noise with holes, cut-off ${cutoff} mm`, () => {
      const grid = noisyWithHoles(5);
      const fast = gaussianFilter(grid, cutoff);
      const slow = bruteForce(grid, cutoff);
      let worst = 0;
      for (let i = 0; i < slow.length; i++) if (grid.mask[i]) worst = Math.max(worst, Math.abs(fast.z[i] - slow[i]));
      expect(worst).toBeLessThan(2e-3);
    });

  it('gives a constant back whatever the mask, and never fills a hole', () => {
    const grid = noisyWithHoles(6);
    for (let i = 0; i < grid.z.length; i++) if (grid.mask[i]) grid.z[i] = 3.5;
    const out = gaussianFilter(grid, 2);
    for (let i = 0; i < grid.z.length; i++) expect(out.z[i]).toBeCloseTo(grid.mask[i] ? 3.5 : 0, 5);
    expect(out.mask).toBe(grid.mask);
  });

  it('is linear and does not care what lies under the mask', () => {
    const grid = noisyWithHoles(7);
    const dirty = grid.z.map((v, i) => (grid.mask[i] ? 2 * v + 1 : 1e6));
    const a = gaussianFilter(grid, 1.5);
    const b = gaussianFilter({ ...grid, z: dirty }, 1.5);
    for (let i = 0; i < a.z.length; i++) if (grid.mask[i]) expect(b.z[i]).toBeCloseTo(2 * a.z[i] + 1, 4);
  });
});

describe('bandPass', () => {
  it('is the difference of two low passes: keeps the middle, drops both ends', () => {
    const passed = (wavelength: number): number =>
      amplitude(
        bandPass(
          filled(3000, 3, 0.05, (x) => Math.sin((2 * Math.PI * x) / wavelength)),
          0.5,
          8,
        ),
        wavelength,
      );
    for (const wavelength of [0.25, 2, 16])
      expect(passed(wavelength)).toBeCloseTo(
        gaussianTransmission(wavelength, 0.5) - gaussianTransmission(wavelength, 8),
        3,
      );
  });
});
