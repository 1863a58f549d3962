import { describe, expect, it } from 'vitest';
import { emptyGrid, type HeightGrid, xOf, yOf } from '../../src/core/geometry/index.ts';
import { findLandmarks, landmarkDefaults } from '../../src/core/judge/landmarks.ts';

const sizeMm = 20;
/** Landmarks lie at least so far apart, mm. */
const apartMm = landmarkDefaults.apart * landmarkDefaults.radius * sizeMm;

function gridOf(height: (x: number, y: number) => number, has: (x: number, y: number) => boolean = () => true) {
  const grid = emptyGrid(-12, 12, -12, 12, 0.1);
  for (let i = 0; i < grid.z.length; i++) {
    const [x, y] = [xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width))];
    if (!has(x, y)) continue;
    grid.mask[i] = 1;
    grid.z[i] = height(x, y);
  }
  return grid;
}

const dot = (x: number, y: number, high = 0.3, wide = 0.35) => ({ x, y, high, wide });
const relief =
  (dots: ReadonlyArray<ReturnType<typeof dot>>) =>
  (x: number, y: number): number =>
    dots.reduce((sum, d) => sum + d.high * Math.exp(-((x - d.x) ** 2 + (y - d.y) ** 2) / (2 * d.wide ** 2)), 0);

const row = Array.from({ length: 9 }, (_, k) => dot(-8 + 2 * k, k % 2 === 0 ? 3.03 : -4.07));
/** Empty ground has peaks of rounding, which count among the usual: it is left out. */
const around =
  (dots: ReadonlyArray<ReturnType<typeof dot>>) =>
  (x: number, y: number): boolean =>
    dots.some((d) => Math.hypot(x - d.x, y - d.y) < 1.3);

const near = (grid: HeightGrid, x: number, y: number): boolean =>
  findLandmarks(grid, sizeMm).some((at) => Math.hypot(at.x - x, at.y - y) < 0.15);

describe('landmarks', () => {
  it('lie on round dots, within a cell and a half', () => {
    const grid = gridOf(relief(row));
    for (const { x, y } of row) expect(near(grid, x, y), `${x}, ${y}`).toBe(true);
  });

  it('are stronger on dots and on the end of a ridge than anywhere along it', () => {
    const ridge = (x: number, y: number): number =>
      (0.3 * Math.exp(-(y * y) / (2 * 0.35 ** 2))) / (1 + Math.exp((x - 2) / 0.1));
    const dots = [dot(-4, 6), dot(0, -6), dot(5, 6)];
    const found = findLandmarks(
      gridOf((x, y) => ridge(x, y) + relief(dots)(x, y)),
      sizeMm,
    );
    const first = found.slice(0, 4);
    for (const { x, y } of [...dots, { x: 2, y: 0 }])
      expect(
        first.some((at) => Math.hypot(at.x - x, at.y - y) < 0.7),
        `${x}, ${y}`,
      ).toBe(true);
  });

  it('come strongest first, and those below half of the usual strength do not come', () => {
    // Strength goes with the square of the height: 0.6² = 0.36 is below a half, 0.8² = 0.64 above.
    const dots = [...row, dot(0, 8, 0.6), dot(-4, 8, 0.18), dot(4, 8, 0.24)];
    const grid = gridOf(relief(dots), around(dots));
    const found = findLandmarks(grid, sizeMm);
    expect(Math.hypot(found[0].x, found[0].y - 8)).toBeLessThan(0.15);
    expect(near(grid, -4, 8)).toBe(false);
    expect(near(grid, 4, 8)).toBe(true);
  });

  it('keep their distance: of two that are nearer the weaker goes', () => {
    for (const [factor, both] of [
      [0.85, false],
      [1.2, true],
    ] as const) {
      const [x, wide] = [factor * apartMm, 0.12];
      const grid = gridOf(relief([...row.map((d) => ({ ...d, wide })), dot(0, 8, 0.3, wide), dot(x, 8, 0.27, wide)]));
      const here = findLandmarks(grid, sizeMm, {
        ...landmarkDefaults,
        radius: landmarkDefaults.radius / 4,
        apart: 4.8 * 1,
      });
      const onPair = here.filter((at) => Math.abs(at.y - 8) < 0.3 && at.x > -0.4 && at.x < x + 0.4);
      expect(onPair.length, String(factor)).toBe(both ? 2 : 1);
    }
  });

  it('are no more than asked for', () => {
    const grid = gridOf(relief(row));
    expect(findLandmarks(grid, sizeMm, { ...landmarkDefaults, most: 4 })).toEqual(
      findLandmarks(grid, sizeMm).slice(0, 4),
    );
  });

  it('do not lie where there is no data, nor within their radius of the edge of the picture', () => {
    const grid = gridOf(relief([...row, dot(11.8, 0), dot(0, -11.8)]), (x, y) => Math.hypot(x - 2, y - 3) > 1.5);
    expect(findLandmarks(grid, sizeMm).every(({ x, y }) => Math.hypot(x - 2, y - 3) > 1.5)).toBe(true);
    expect(findLandmarks(grid, sizeMm).every(({ x, y }) => Math.abs(x) < 11.6 && Math.abs(y) < 11.6)).toBe(true);
    expect(
      findLandmarks(
        gridOf(() => 0),
        sizeMm,
      ),
    ).toEqual([]);
  });

  it('do not change with the sign or the height of the relief, and move with it', () => {
    const found = findLandmarks(gridOf(relief(row), around(row)), sizeMm);
    const negative = findLandmarks(
      gridOf((x, y) => -2 * relief(row)(x, y), around(row)),
      sizeMm,
    );
    expect(negative).toEqual(found);
    const turned = findLandmarks(
      gridOf(
        (x, y) => relief(row)(y, -x),
        (x, y) => around(row)(y, -x),
      ),
      sizeMm,
    );
    expect(turned.length).toBe(found.length);
    for (const { x, y } of found) expect(turned.some((at) => Math.hypot(at.x + y, at.y - x) < 0.21)).toBe(true);
  });
});
