import { describe, expect, it } from 'vitest';
import { expectedDifference } from '../../../src/core/condition/relief/lowering.ts';
import type { WearRelief } from '../../../src/core/condition/relief/relief.ts';
import { emptyGrid, seededRandom } from '../../../src/core/geometry/index.ts';

const pitch = 0.2;
const half = 12;
const sigmaMm = 0.03;
const grid = emptyGrid(-half, half, -half, half, pitch);
grid.mask.fill(1);
const n = grid.z.length;
const x = (i: number): number => grid.left + (i % grid.width) * pitch;
const y = (i: number): number => grid.top - Math.floor(i / grid.width) * pitch;
/** Bosses 0.4 mm high; what stands within half a millimetre is a tenth of that. */
const height = Float32Array.from(
  { length: n },
  (_, i) => 0.4 * Math.max(0, Math.sin(1.2 * x(i)) * Math.cos(1.1 * y(i))),
);
const narrow = height.map((value) => 0.1 * value);
const image = Uint8Array.from({ length: n }, (_, i) => (Math.abs(x(i)) < half - 1 ? 1 : 0));

function expected(lackMm: (i: number) => number, seed = 1): Float32Array {
  const random = seededRandom(seed);
  const difference = Float32Array.from({ length: n }, (_, i) =>
    i % 97 ? sigmaMm * random.normal() - lackMm(i) : Number.NaN,
  );
  const relief = { reference: grid, difference, image } as unknown as WearRelief;
  return expectedDifference(relief, new Float32Array(n).fill(sigmaMm), [height, narrow, narrow]);
}

/** Share of cells that are truly lower by 0.02 mm, and of those that are not, of which so much is expected. */
function said(lackMm: (i: number) => number): { lower: number; sound: number } {
  const found = expected(lackMm);
  const count = { lower: [0, 0], sound: [0, 0] };
  found.forEach((value, i) => {
    if (Number.isNaN(value)) return;
    const of = count[lackMm(i) > 0.02 ? 'lower' : 'sound'];
    of[0] += value < -0.02 ? 1 : 0;
    of[1]++;
  });
  return { lower: count.lower[0] / Math.max(1, count.lower[1]), sound: count.sound[0] / count.sound[1] };
}

describe('the difference that is expected', () => {
  it('is found under the noise where a neighbourhood lost alike by height', () => {
    // Tops have lost at most 0.06 mm, two standard deviations of a cell; on the left half alone.
    const { lower, sound } = said((i) => (x(i) < 0 ? 0.15 * height[i] : 0));
    expect(lower).toBeGreaterThan(0.85);
    expect(sound).toBeLessThan(0.05);
  });

  it('is nothing where nothing was lost, whatever the noise', () => {
    expect(said(() => 0).sound).toBeLessThan(0.01);
  });

  it('follows a cell that has surely lost although its neighbours have not', () => {
    const at = Math.floor(n / 2) + 20;
    expect(expected((i) => (i === at ? 0.4 : 0))[at]).toBeLessThan(-0.03);
  });

  it('never makes a gain of what a neighbourhood gained, and says nothing without data or outside the image', () => {
    const found = expected((i) => -0.5 * height[i]);
    const mean = found.reduce((sum, value) => (Number.isNaN(value) ? sum : sum + value), 0) / n;
    expect(mean).toBeGreaterThanOrEqual(0);
    found.forEach((value, i) => {
      expect(Number.isNaN(value)).toBe(!image[i] || i % 97 === 0);
    });
  });
});
