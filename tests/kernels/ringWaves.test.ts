import { describe, expect, it } from 'vitest';
import { ringWaves, ringWavesPlainly } from '../../src/core/design/legend/ringWaves.ts';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { ringWavesKernel } from '../../src/kernels/index.ts';

const rowsOf = (count: number, columns: number, seed: number): Float64Array[] => {
  const random = seededRandom(seed);
  return Array.from({ length: count }, () => Float64Array.from({ length: columns }, () => random.normal()));
};

describe('the kernel for waves along a ring', () => {
  it('runs here, and finds all of a cosine in its own wave', () => {
    const row = Float64Array.from({ length: 240 }, (_, c) => Math.cos((2 * Math.PI * 7 * c) / 240));
    const power = ringWavesKernel([row]);
    expect(power?.(7)).toBeCloseTo(120 ** 2, 6);
    expect(power?.(8)).toBeCloseTo(0, 6);
  });

  it('gives the same numbers as its referee, whatever was laid out before', () => {
    for (const [count, columns] of [
      [5, 733],
      [1, 12],
      [6, 2000],
      [3, 50],
    ]) {
      const rows = rowsOf(count, columns, count + columns);
      const [power, plain] = [ringWaves(rows), ringWavesPlainly(rows)];
      for (let k = 0; k < 40; k++) expect(power(k)).toBe(plain(k));
    }
  });

  it('leaves more rows than it has lanes for to the plain code', () => {
    const rows = rowsOf(7, 30, 3);
    expect(ringWavesKernel(rows)).toBeNull();
    expect(ringWaves(rows)(2)).toBe(ringWavesPlainly(rows)(2));
  });
});
