import { describe, expect, it } from 'vitest';
import { pairOfReliefs } from '../../../src/core/condition/relief/relief.ts';
import { emptyGrid } from '../../../src/core/geometry/index.ts';

const grid = emptyGrid(-15, 15, -15, 15, 0.25);
const all = [...grid.z.keys()];
const place = (i: number): [number, number] => [
  grid.left + (i % grid.width) * grid.pitch,
  grid.top - Math.floor(i / grid.width) * grid.pitch,
];
const radius = (i: number): number => Math.hypot(...place(i));

/** A disc of 28 mm; the subject lies `lowMm` lower where told. Which cells stay. */
function kept(low: (x: number, y: number) => boolean, lowMm = 1): number[] {
  const mask = grid.mask.map(() => 1);
  const noise = (i: number): number => 0.01 * Math.sin(12.9898 * i);
  const reference = { ...grid, mask, z: Float32Array.from(all, noise) };
  const subject = { ...grid, mask, z: Float32Array.from(all, (i) => noise(i + 1) - (low(...place(i)) ? lowMm : 0)) };
  const inside = Uint8Array.from(all, (i) => (radius(i) <= 14 ? 1 : 0));
  const relief = pairOfReliefs(reference, subject, { inside, noiseMm: 0.01, sizeMm: 28, turned: false });
  return all.filter((i) => relief.image[i] === 1);
}

const whole = all.filter((i) => radius(i) <= 14);

describe('the rim of one of two faces', () => {
  it('is what lies apart all round the edge', () => {
    const left = kept((x, y) => Math.hypot(x, y) > 13);
    expect(Math.max(...left.map(radius))).toBeLessThan(13);
    expect(left.length).toBeGreaterThan(0.85 * all.filter((i) => radius(i) <= 13).length);
  });

  it('is none where a break takes one side, or where the whole face agrees', () => {
    expect(kept((x) => x > 9)).toEqual(whole);
    expect(kept(() => false)).toEqual(whole);
  });

  it('leaves a break that reaches farther in than a wall stands', () => {
    const left = kept((x, y) => Math.hypot(x, y) > 13 || x > 8);
    expect(left.some((i) => place(i)[0] > 9 && Math.abs(place(i)[1]) < 4)).toBe(true);
  });

  it('is not what is worn by little', () => {
    expect(kept((x, y) => Math.hypot(x, y) > 13, 0.2)).toEqual(whole);
  });
});
