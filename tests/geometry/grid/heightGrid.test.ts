import { describe, expect, it } from 'vitest';
import {
  bandPass,
  columnOf,
  emptyGrid,
  everyNth,
  gaussianFilter,
  gridOn,
  type HeightGrid,
  resampleGrid,
  rotate,
  rowOf,
  sampleGrid,
  seededRandom,
  turnGridOver,
  turnOver,
  withHeights,
  xOf,
  yOf,
} from '../../../src/core/geometry/index.ts';

function filled(heightAt: (x: number, y: number) => number): HeightGrid {
  const grid = emptyGrid(-1.3, 2.9, -0.4, 2.2, 0.25);
  for (let row = 0, i = 0; row < grid.height; row++)
    for (let col = 0; col < grid.width; col++, i++) {
      grid.mask[i] = 1;
      grid.z[i] = heightAt(xOf(grid, col), yOf(grid, row));
    }
  return grid;
}

describe('every grid', () => {
  it('has its fields in one order, whoever makes it: engines take other orders for other kinds', () => {
    const grid = filled((x) => x);
    const { z, mask, ...frame } = grid;
    const made = [
      gridOn({ top: 1, left: 0, pitch: 1, height: 1, width: 1 }, z, mask),
      gridOn(frame, z, mask),
      withHeights(grid, z),
      turnGridOver(grid),
      everyNth(grid, 2),
      resampleGrid(grid, 0.3),
      gaussianFilter(grid, 1),
      bandPass(grid, 0.5, 1),
    ];
    for (const each of made) expect(Object.keys(each)).toEqual(Object.keys(grid));
  });
});

describe('emptyGrid', () => {
  it('covers the rectangle with less than one cell to spare', () => {
    const grid = emptyGrid(-1.3, 2.9, -0.4, 2.2, 0.25);
    expect([xOf(grid, 0), yOf(grid, 0)]).toEqual([-1.3, 2.2]);
    expect(xOf(grid, grid.width - 1)).toBeGreaterThanOrEqual(2.9);
    expect(xOf(grid, grid.width - 1)).toBeLessThan(2.9 + 0.25);
    expect(yOf(grid, grid.height - 1)).toBeLessThanOrEqual(-0.4);
    expect(yOf(grid, grid.height - 1)).toBeGreaterThan(-0.4 - 0.25);
    expect(grid.mask.some((m) => m !== 0)).toBe(false);
  });

  it('has rows that run downward, and coordinates that undo indices', () => {
    const grid = emptyGrid(0, 1, 0, 1, 0.1);
    expect(yOf(grid, 3)).toBeLessThan(yOf(grid, 2));
    for (const k of [0, 3, 7]) {
      expect(columnOf(grid, xOf(grid, k))).toBeCloseTo(k, 12);
      expect(rowOf(grid, yOf(grid, k))).toBeCloseTo(k, 12);
    }
  });
});

describe('sampleGrid', () => {
  it('is exact for a twisted plane, the surface that bilinear means', () => {
    const twisted = (x: number, y: number): number => 0.2 + 0.5 * x - 0.3 * y + 0.7 * x * y;
    const grid = filled(twisted);
    const random = seededRandom(1);
    for (let round = 0; round < 200; round++) {
      const x = random.between(-1.3, 2.7);
      const y = random.between(-0.2, 2.2);
      expect(sampleGrid(grid, x, y)).toBeCloseTo(twisted(x, y), 6);
    }
  });

  it('has no height outside, nor beside a cell without data', () => {
    const grid = filled(() => 1);
    const hole = 4 * grid.width + 6;
    grid.mask[hole] = 0;
    expect(sampleGrid(grid, -1.31, 1)).toBeNaN();
    expect(sampleGrid(grid, 0, 2.3)).toBeNaN();
    for (const [dx, dy] of [
      [-0.4, 0.4],
      [0.4, -0.4],
    ])
      expect(sampleGrid(grid, xOf(grid, 6 + dx), yOf(grid, 4 + dy))).toBeNaN();
    expect(sampleGrid(grid, xOf(grid, 8.5), yOf(grid, 4))).toBe(1);
  });
});

describe('turnGridOver', () => {
  it('shows the surface that the rotation (−x, y, −z) makes of it', () => {
    const grid = filled((x, y) => Math.sin(2 * x) + 0.3 * y);
    const over = turnGridOver(grid);
    for (const [x, y] of [
      [0.3, 0.7],
      [-1.1, 1.9],
      [2.4, 0.1],
    ]) {
      const [u, v, w] = rotate(turnOver.rotation, [x, y, sampleGrid(grid, x, y)]);
      expect(sampleGrid(over, u, v)).toBeCloseTo(w, 5);
    }
  });

  it('gives the grid back when done twice, holes included', () => {
    const grid = filled((x, y) => 1 + x * x + y);
    grid.mask[17] = 0;
    grid.z[17] = 0;
    const twice = turnGridOver(turnGridOver(grid));
    expect(twice.mask).toEqual(grid.mask);
    expect(twice.z).toEqual(grid.z);
    expect(twice.left).toBeCloseTo(grid.left, 12);
    expect(twice.top).toBe(grid.top);
  });
});
