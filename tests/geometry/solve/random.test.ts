import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../src/core/geometry/index.ts';

describe('seededRandom', () => {
  it('gives the numbers that the Mulberry32 generator is known for (seed 0, from memory)', () => {
    const random = seededRandom(0);
    expect(random.next()).toBeCloseTo(0.26642920868471265, 15);
    expect(random.next()).toBeCloseTo(0.0003297457005828619, 15);
    expect(random.next()).toBeCloseTo(0.2232720274478197, 15);
  });

  it('repeats itself from the same seed and differs from another', () => {
    const draw = (seed: number): number[] => {
      const random = seededRandom(seed);
      return Array.from({ length: 50 }, () => random.normal());
    };
    expect(draw(7)).toEqual(draw(7));
    expect(draw(7)).not.toEqual(draw(8));
  });

  it('spreads evenly over the unit interval: no tenth of it off by five standard deviations', () => {
    const random = seededRandom(11);
    const n = 100_000;
    const counts = new Array<number>(10).fill(0);
    for (let i = 0; i < n; i++) counts[Math.floor(10 * random.next())]++;
    const sd = Math.sqrt(n * 0.1 * 0.9);
    for (const count of counts) expect(Math.abs(count - n / 10)).toBeLessThan(5 * sd);
  });

  it('draws normal numbers: mean 0, variance 1, kurtosis 3', () => {
    const random = seededRandom(12);
    const n = 200_000;
    let [s1, s2, s4] = [0, 0, 0];
    for (let i = 0; i < n; i++) {
      const x = random.normal();
      s1 += x;
      s2 += x * x;
      s4 += x ** 4;
    }
    expect(Math.abs(s1 / n)).toBeLessThan(5 / Math.sqrt(n));
    expect(Math.abs(s2 / n - 1)).toBeLessThan((5 * Math.SQRT2) / Math.sqrt(n));
    expect(Math.abs(s4 / n - 3)).toBeLessThan((5 * Math.sqrt(96)) / Math.sqrt(n));
  });

  it('keeps whole numbers, ranges and picks within their bounds, ends reached', () => {
    const random = seededRandom(13);
    const seen = new Set<number>();
    for (let i = 0; i < 500; i++) {
      seen.add(random.below(6));
      const x = random.between(-2, 3);
      expect(x >= -2 && x < 3).toBe(true);
      expect(['a', 'b']).toContain(random.pick(['a', 'b']));
    }
    expect([...seen].sort()).toEqual([0, 1, 2, 3, 4, 5]);
  });
});
