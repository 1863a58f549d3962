import { describe, expect, it } from 'vitest';
import { medianAbsoluteDeviation, quantile, seededRandom, sortedFinite } from '../../src/core/geometry/index.ts';
import { deviationPlainly, quantileOfSorted, quantilePlainly } from '../../src/core/geometry/solve/statistics.ts';
import { selectingFrom } from '../../src/kernels/index.ts';

/** Normal numbers, some missing, many alike where `steps` is coarse. */
function numbers(count: number, seed: number, steps: number): Float64Array {
  const random = seededRandom(seed);
  return Float64Array.from({ length: count }, () =>
    random.between(0, 1) < 0.1 ? Number.NaN : Math.round(random.normal() * steps) / steps,
  );
}

describe('the kernel for order statistics', () => {
  it('runs here', () => {
    expect(selectingFrom([3, Number.NaN, 1])?.count).toBe(2);
  });

  it('gives the same numbers as its referee and as a sorted list, whatever kind of list it is', () => {
    for (const count of [1, 2, 3, 10, 599, 600, 5000, 40_000])
      for (const steps of [3, 1e6]) {
        const list = numbers(count, count + steps, steps);
        const sorted = sortedFinite(list);
        for (const q of [0, 0.05, 0.5, 0.9, 1])
          for (const values of [list, Float32Array.from(list), Array.from(list)]) {
            expect(quantile(values, q)).toBe(quantilePlainly(values, q));
            if (values === list) expect(quantile(values, q)).toBe(quantileOfSorted(sorted, q));
          }
        expect(medianAbsoluteDeviation(list)).toBe(deviationPlainly(list));
      }
  });

  it('has no number for no numbers', () => {
    for (const list of [[], [Number.NaN], new Float32Array(3).fill(Number.NaN)]) {
      expect(quantile(list, 0.5)).toBeNaN();
      expect(medianAbsoluteDeviation(list)).toBeNaN();
    }
  });

  it('lets a large list go', () => {
    const list = numbers(1_100_000, 9, 1e6);
    expect(quantile(list, 0.5)).toBe(quantilePlainly(list, 0.5));
    expect(quantile([2, 1, 4], 0.5)).toBe(2);
  });
});
