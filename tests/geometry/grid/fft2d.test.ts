import { describe, expect, it } from 'vitest';
import { fft2d, seededRandom } from '../../../src/core/geometry/index.ts';

const n = 8;

function noise(seed: number, size = n): Float64Array {
  const random = seededRandom(seed);
  return Float64Array.from({ length: 2 * size * size }, () => random.normal());
}

/** Σ f(r, c) exp(−2πi (r u + c v)/n), straight from the definition, stored at (row v, column u). */
function bySum(data: Float64Array): Float64Array {
  const out = new Float64Array(data.length);
  for (let u = 0; u < n; u++)
    for (let v = 0; v < n; v++)
      for (let r = 0; r < n; r++)
        for (let c = 0; c < n; c++) {
          const angle = (-2 * Math.PI * (r * u + c * v)) / n;
          const [re, im] = [data[2 * (r * n + c)], data[2 * (r * n + c) + 1]];
          out[2 * (v * n + u)] += re * Math.cos(angle) - im * Math.sin(angle);
          out[2 * (v * n + u) + 1] += re * Math.sin(angle) + im * Math.cos(angle);
        }
  return out;
}

const worstGap = (a: Float64Array, b: Float64Array): number =>
  a.reduce((most, value, i) => Math.max(most, Math.abs(value - b[i])), 0);
const energy = (data: Float64Array): number => data.reduce((sum, value) => sum + value * value, 0);

describe('fft2d', () => {
  it('agrees with the sum that defines it', () => {
    const data = noise(1);
    const expected = bySum(data);
    fft2d(n).forward(data);
    expect(worstGap(data, expected)).toBeLessThan(1e-12);
  });

  it('agrees with the sum where whole rows are empty, as padding leaves them', () => {
    const data = noise(2);
    data.fill(0, 2 * n * 3);
    const expected = bySum(data);
    fft2d(n).forward(data);
    expect(worstGap(data, expected)).toBeLessThan(1e-12);
  });

  for (const size of [2, 16, 128])
    it(`gives a picture of ${size} cells back and keeps its energy (Parseval)`, () => {
      const data = noise(3, size);
      const kept = data.slice();
      const fft = fft2d(size);
      fft.forward(data);
      expect(energy(data) / (size * size) / energy(kept)).toBeCloseTo(1, 12);
      fft.inverse(data);
      expect(worstGap(data, kept)).toBeLessThan(1e-12);
    });

  it('finds by correlation how far a picture was shifted', () => {
    const size = 32;
    const fft = fft2d(size);
    const random = seededRandom(4);
    const [a, b] = [new Float64Array(2 * size * size), new Float64Array(2 * size * size)];
    for (let r = 0; r < size; r++)
      for (let c = 0; c < size; c++) {
        const value = random.normal();
        a[2 * (r * size + c)] = value;
        b[2 * (((r + 5) % size) * size + ((c + 21) % size))] = value;
      }
    fft.forward(a);
    fft.forward(b);
    const product = new Float64Array(a.length);
    for (let i = 0; i < a.length; i += 2) {
      product[i] = b[i] * a[i] + b[i + 1] * a[i + 1];
      product[i + 1] = b[i + 1] * a[i] - b[i] * a[i + 1];
    }
    fft.inverse(product);
    let best = 0;
    for (let i = 0; i < product.length; i += 2) if (product[i] > product[best]) best = i;
    expect([Math.floor(best / 2 / size), (best / 2) % size]).toEqual([5, 21]);
  });
});
