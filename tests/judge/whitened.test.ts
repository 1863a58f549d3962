import { describe, expect, it } from 'vitest';
import { emptyGrid, type HeightGrid, seededRandom, xOf, yOf } from '../../src/core/geometry/index.ts';
import type { Patch } from '../../src/core/judge/patches.ts';
import { whitenedReliefs } from '../../src/core/judge/whitened.ts';

function gridOf(height: (x: number, y: number) => number): HeightGrid {
  const grid = emptyGrid(-10, 10, -10, 10, 0.1);
  for (let i = 0; i < grid.z.length; i++) {
    grid.z[i] = height(xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width)));
    grid.mask[i] = 1;
  }
  return grid;
}

/** Waves of one length in every direction, of another phase for each seed. */
function waves(lengthMm: number, seed: number): (x: number, y: number) => number {
  const random = seededRandom(seed);
  const all = Array.from({ length: 12 }, () => [random.between(0, 2 * Math.PI), random.between(0, 2 * Math.PI)]);
  const k = (2 * Math.PI) / lengthMm;
  return (x, y) =>
    all.reduce((sum, [at, phase]) => sum + Math.sin(k * (x * Math.cos(at) + y * Math.sin(at)) + phase), 0);
}

const patch = (x: number, y: number, dx = 0, turnDeg = 0): Patch => ({
  ...{
    x,
    y,
    dx,
    dy: 0,
    turnDeg,
    correlation: 0.9,
    covariance: [1, 0, 1],
    whole: 1,
    kept: 1,
    relief: [1, 1],
    inside: true,
  },
});
const places = (dx = 0): Patch[] => [-5, 0, 5].flatMap((x) => [-5, 0, 5].map((y) => patch(x, y, dx)));

const correlation = (a: HeightGrid, b: HeightGrid): number => {
  const sum = (p: Float32Array, q: Float32Array): number => p.reduce((s, value, i) => s + value * q[i], 0);
  return sum(a.z, b.z) / Math.sqrt(sum(a.z, a.z) * sum(b.z, b.z));
};

describe('whitened reliefs', () => {
  const fine = waves(1, 1);
  const form = [waves(6, 2), waves(6, 3)];

  it('leave out the wavelengths in which the two have nothing in common, however high', () => {
    const a = gridOf((x, y) => fine(x, y) + 2 * form[0](x, y));
    const b = gridOf((x, y) => 0.5 * fine(x, y) + 2 * form[1](x, y));
    expect(Math.abs(correlation(a, b))).toBeLessThan(0.3);
    const white = whitenedReliefs(a, b, places(), 0.25, 6, 2);
    expect(correlation(white.a, white.b)).toBeGreaterThan(0.9);
  });

  it('read the subject where each place was found', () => {
    const a = gridOf(fine);
    const b = gridOf((x, y) => fine(x - 0.4, y));
    const power = (grid: HeightGrid): number => grid.z.reduce((sum, value) => sum + value * value, 0);
    const [there, elsewhere] = [0.4, -0.1].map((dx) => power(whitenedReliefs(a, b, places(dx), 0.25, 6, 2).a));
    expect(there).toBeGreaterThan(20 * elsewhere);
  });

  it('are the same whatever unit the heights of either have', () => {
    const [a, b] = [gridOf((x, y) => fine(x, y) + form[0](x, y)), gridOf((x, y) => fine(x, y) + form[0](x, y) / 2)];
    const times = (grid: HeightGrid, by: number): HeightGrid => ({ ...grid, z: grid.z.map((value) => by * value) });
    const [one, other] = [
      whitenedReliefs(a, b, places(), 0.25, 6, 2),
      whitenedReliefs(times(a, 4), times(b, 0.5), places(), 0.25, 6, 2),
    ];
    const apart = (p: HeightGrid, q: HeightGrid): number =>
      Math.max(...p.z.map((value, i) => Math.abs(value - q.z[i])));
    expect(apart(one.a, other.a)).toBeLessThan(1e-4);
    expect(apart(one.b, other.b)).toBeLessThan(1e-4);
  });
});
