import { describe, expect, it } from 'vitest';
import { significantCells } from '../../src/core/compare/index.ts';
import { inRegions, twoSided } from '../../src/core/compare/significance.ts';
import { emptyGrid, type HeightGrid, seededRandom, withHeights } from '../../src/core/geometry/index.ts';

function noise(seed: number): HeightGrid {
  const random = seededRandom(seed);
  const grid = emptyGrid(0, 99, 0, 99, 1);
  grid.mask.fill(1);
  return withHeights(
    grid,
    grid.z.map(() => 0.01 * random.normal()),
  );
}
const level = (map: HeightGrid): HeightGrid =>
  withHeights(
    map,
    map.z.map(() => 1.96 * 0.01),
  );
const count = (cells: Uint8Array): number => cells.reduce((sum, value) => sum + value, 0);

describe('significantCells', () => {
  it('calls next to nothing significant in noise, where one cell in twenty exceeds its own level', () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const map = noise(seed);
      expect(map.z.filter((z) => Math.abs(z) > 1.96 * 0.01).length).toBeGreaterThan(400);
      expect(count(significantCells(map, level(map)))).toBeLessThan(5);
    }
  });

  it('finds a real patch, and of what it calls significant about one in twenty at most is not in it', () => {
    const map = noise(6);
    const inside = map.z.map((_, i) => (i % 100 > 30 && i % 100 <= 60 && i > 3000 && i < 6000 ? 1 : 0));
    inside.forEach((value, i) => {
      if (value) map.z[i] += 0.045;
    });
    const found = significantCells(map, level(map));
    const right = count(found.map((value, i) => value & inside[i]));
    expect(right / count(Uint8Array.from(inside))).toBeGreaterThan(0.8);
    expect(1 - right / count(found)).toBeLessThan(0.07);
  });

  it('keeps the k cells that the rule p₍ₖ₎ ≤ q k/m keeps, counted one by one', () => {
    const map = noise(7);
    for (let i = 0; i < 300; i++) map.z[i] += 0.03;
    const p = Float64Array.from(map.z, (z) => twoSided(Math.abs(z) / 0.01)).sort();
    let kept = 0;
    for (let k = 1; k <= p.length; k++) if (p[k - 1] <= (0.05 * k) / p.length) kept = k;
    expect(count(significantCells(map, level(map)))).toBe(kept);
  });

  it('leaves cells without data out', () => {
    const map = noise(8);
    map.mask.fill(0, 0, 5000);
    map.z[10] = 9;
    expect(count(significantCells(map, level(map)).subarray(0, 5000))).toBe(0);
  });
});

describe('inRegions', () => {
  it('keeps pieces of more cells than asked for, over sides and corners, and no smaller one', () => {
    const rows = ['##....', '##..#.', '....#.', '..#..#', '.#....', '#.....'];
    const cells = Uint8Array.from(rows.join(''), (sign) => (sign === '#' ? 1 : 0));
    const kept = (least: number): number => count(inRegions(cells, 6, least));
    expect([2, 3, 4].map(kept)).toEqual([10, 4, 0]);
    expect(inRegions(cells, 6, 0)).toEqual(cells);
  });
});

describe('twoSided', () => {
  it.each([
    [0, 1],
    [1, 0.3173105],
    [1.959964, 0.05],
    [3, 0.0026998],
    [5, 5.733e-7],
  ])('of %f is %f (tables of the normal distribution)', (z, p) => {
    expect(twoSided(z) / p).toBeCloseTo(1, 4);
  });
});
