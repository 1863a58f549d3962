import { describe, expect, it } from 'vitest';
import { dominantPlane, heightOver } from '../../src/core/face/plane.ts';
import { largestRegion } from '../../src/core/face/region.ts';
import { emptyGrid, seededRandom } from '../../src/core/geometry/index.ts';
import { gridOf } from './grids.ts';

describe('dominantPlane', () => {
  const noise = seededRandom(1);

  it('is the field’s plane, though two fifths of the face are cut into it', () => {
    const cut = (x: number, y: number): number => (Math.sin(1.7 * x) * Math.cos(1.3 * y) < -0.15 ? -0.8 : 0);
    const grid = gridOf(10, 0.25, (x, y) => 1 + 0.1 * x - 0.05 * y + cut(x, y) + 0.005 * noise.normal());
    const plane = dominantPlane(grid, 0.1);
    expect(plane?.b).toBeCloseTo(0.1, 3);
    expect(plane?.c).toBeCloseTo(-0.05, 3);
    expect(plane?.a).toBeCloseTo(1, 2);
  });

  it('scales with the model', () => {
    const shape = (x: number, y: number): number => 0.2 * x + (Math.hypot(x, y) < 4 ? -0.5 : 0);
    const [small, large] = [1, 1000].map((k) =>
      dominantPlane(
        gridOf(10 * k, 0.25 * k, (x, y) => k * shape(x / k, y / k)),
        0.1 * k,
      ),
    );
    expect(large?.b).toBeCloseTo(small?.b ?? 9, 5);
    expect((large?.a ?? 9) / 1000).toBeCloseTo(small?.a ?? 9, 4);
  });

  it('is nothing for fewer than three cells, and for cells on one line', () => {
    expect(dominantPlane(emptyGrid(0, 1, 0, 1, 0.1), 0.1)).toBeNull();
    expect(
      dominantPlane(
        gridOf(
          2,
          0.1,
          (x) => x,
          (_, y) => Math.abs(y) < 0.01,
        ),
        0.1,
      ),
    ).toBeNull();
  });

  it('gives the height of its formula', () => {
    expect(heightOver({ a: 1, b: 2, c: -3 }, 10, 100)).toBe(1 + 20 - 300);
  });
});

describe('largestRegion', () => {
  it('keeps the greater of two islands, and nothing beyond the reach', () => {
    const grid = gridOf(
      10,
      0.25,
      (_, y) => (y > 8 ? 3 : 0),
      (x) => Math.abs(x - 3) > 0.5,
    );
    const region = largestRegion(grid, 1, 0.5);
    for (let i = 0; i < region.length; i++) {
      const x = grid.left + (i % grid.width) * grid.pitch;
      const y = grid.top - Math.floor(i / grid.width) * grid.pitch;
      expect(region[i]).toBe(x < 2.5 && y <= 8 ? 1 : 0);
    }
  });

  it('does not climb a step, but does climb a slope', () => {
    const count = (height: (x: number) => number): number =>
      largestRegion(gridOf(5, 0.25, height), 2, 0.2).reduce((sum, value) => sum + value, 0);
    const all = 41 * 41;
    expect(count((x) => 0.19 * Math.round(x / 0.25) * 0.25)).toBe(all);
    expect(count((x) => (x < 1 ? 0 : 0.3))).toBeLessThan(0.65 * all);
  });

  it('is empty where nothing lies within the reach', () => {
    expect(
      largestRegion(
        gridOf(5, 0.5, () => 9),
        1,
        1,
      ).some((value) => value === 1),
    ).toBe(false);
  });
});
