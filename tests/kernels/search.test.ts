import { describe, expect, it } from 'vitest';
import { alignSums, plainSums } from '../../src/core/fit/alignStep.ts';
import type { Signal } from '../../src/core/fit/bandPassed.ts';
import { correlatePlainly, correlateTurned } from '../../src/core/fit/turnedCorrelation.ts';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { alignStepKernel, turnedCorrelationKernel } from '../../src/kernels/index.ts';

/** Noise on a square; `holes`: the share of cells without data. */
function noise(size: number, seed: number, holes = 0): Signal {
  const random = seededRandom(seed);
  const mask = Uint8Array.from({ length: size * size }, () => (random.between(0, 1) < holes ? 0 : 1));
  const value = Float32Array.from(mask, (m) => m * random.between(-2, 2));
  return { size, pitch: 0.3, value, mask };
}

describe('the kernel for correlations over all shifts', () => {
  it('runs here', () => {
    expect(turnedCorrelationKernel(noise(40, 1), noise(40, 2), 128)).not.toBeNull();
  });

  it('finds the extremes of its referee, and their values within float32', () => {
    for (const [sizeA, sizeB, n] of [
      [80, 80, 128],
      [109, 81, 128],
      [33, 40, 64],
    ]) {
      const [a, b] = [noise(sizeA, 3, 0.2), noise(sizeB, 4, 0.2)];
      const [ours, plain] = [correlateTurned(a, b, n), correlatePlainly(a, b, n)];
      for (const turn of [0, 0.7, 2.2, 4.1])
        for (const scale of [0.94, 1.08]) {
          const [one, two] = [ours(turn, scale), plain(turn, scale)];
          const most = Math.max(two.straightMost, -two.straightLeast, two.overMost, -two.overLeast);
          expect(one.energy).toBe(two.energy);
          for (const [name, value] of Object.entries(two))
            if (name.endsWith('At')) expect(one[name as keyof typeof one], name).toBe(value);
            else expect(Math.abs(one[name as keyof typeof one] - value), name).toBeLessThan(2e-6 * most);
        }
    }
  });

  it('finds a signal in itself where it was shifted to', () => {
    const a = noise(40, 5);
    const shifted = { ...a, value: a.value.map((_, i) => (i % 40 > 2 && i >= 5 * 40 ? a.value[i - 5 * 40 - 3] : 0)) };
    expect(correlateTurned(shifted, a, 128)(0, 1).straightMostAt).toBe(5 * 128 + 3);
  });
});

describe('the kernel for the sums of an alignment', () => {
  const random = seededRandom(6);
  const some = (count: number, most: number) => Float32Array.from({ length: count }, () => random.between(-most, most));
  const cells = { x: some(5000, 20), y: some(5000, 20), value: some(5000, 2), slopes: some(20_000, 2) };

  it('runs here', () => {
    expect(alignStepKernel(cells, noise(50, 1).value, 50)).not.toBeNull();
  });

  it('gives the numbers of its referee within float32', () => {
    for (const holes of [0, 0.1, 1]) {
      const subject = noise(120, 7, holes);
      const [ours, plain] = [alignSums(cells, subject), plainSums(cells, subject)];
      for (const flipX of [false, true])
        for (const turn of [0, 1.3, 4]) {
          const fit = { flipX, negate: !flipX, turn, scale: 1.02, tx: 3.3, ty: -0.4 };
          const [found, wanted] = [ours(fit), plain(fit)];
          // A place beside the rim, or beside a hole, may be told to lie on either side of it.
          expect(Math.abs(found[0] - wanted[0])).toBeLessThanOrEqual(2);
          // A hundred-thousandth of a cell off a place among white noise, and a cell more or less, change a sum of terms up to 4 so much.
          found.forEach((value, k) => {
            expect(Math.abs(value - wanted[k]), `sum ${k}`).toBeLessThan(
              1e-6 * 4 * wanted[0] + 4 * Math.abs(found[0] - wanted[0]) + 1e-9,
            );
          });
        }
    }
  });
});

describe('both kernels', () => {
  it('leave the work to the plain code where there is no WebAssembly', () => {
    const engine = Object.getOwnPropertyDescriptor(globalThis, 'WebAssembly');
    const [a, b] = [noise(40, 1), noise(40, 2)];
    try {
      Object.defineProperty(globalThis, 'WebAssembly', { value: undefined, configurable: true });
      expect(turnedCorrelationKernel(a, b, 128)).toBeNull();
      expect(correlateTurned(a, b, 128)(0.3, 1)).toEqual(correlatePlainly(a, b, 128)(0.3, 1));
    } finally {
      if (engine) Object.defineProperty(globalThis, 'WebAssembly', engine);
    }
  });
});
