import { describe, expect, it } from 'vitest';
import {
  emptyGrid,
  formAt,
  type HeightGrid,
  removeForm,
  seededRandom,
  xOf,
  yOf,
} from '../../../src/core/geometry/index.ts';

function surface(heightAt: (x: number, y: number) => number, holes = 0): HeightGrid {
  const random = seededRandom(11);
  const grid = emptyGrid(3, 33, -20, 5, 0.2);
  for (let r = 0; r < grid.height; r++)
    for (let c = 0; c < grid.width; c++) {
      if (random.next() < holes) continue;
      grid.mask[r * grid.width + c] = 1;
      grid.z[r * grid.width + c] = heightAt(xOf(grid, c), yOf(grid, r));
    }
  return grid;
}

describe('removeForm', () => {
  it('gives the coefficients of an exact second-order surface back, off centre and with holes', () => {
    const truth = [0.7, -0.03, 0.05, 0.002, -0.0015, 0.001];
    const { detail, coefficients } = removeForm(
      surface((x, y) => formAt(truth, x, y), 0.3),
      2,
    );
    truth.forEach((value, k) => {
      expect(coefficients[k]).toBeCloseTo(value, 5);
    });
    expect(Math.max(...detail.z.map(Math.abs))).toBeLessThan(1e-5);
  });

  it('leaves a raised design standing on its field: a quarter of the cells 0.6 mm up do not lift the plane', () => {
    const random = seededRandom(3);
    const grid = surface((x, y) => 1 + 0.02 * x - 0.01 * y + (x % 4 < 1 ? 0.6 : 0) + 0.01 * random.normal());
    const { coefficients } = removeForm(grid, 1);
    expect(coefficients[0]).toBeCloseTo(1, 2);
    expect(coefficients[1]).toBeCloseTo(0.02, 3);
    expect(coefficients[2]).toBeCloseTo(-0.01, 3);
  });

  it('taking the form off twice changes nothing the second time', () => {
    const random = seededRandom(4);
    const once = removeForm(
      surface((x, y) => 0.003 * x * y + random.normal() * 0.05),
      2,
    ).detail;
    const twice = removeForm(once, 2).detail;
    for (let i = 0; i < once.z.length; i++) expect(Math.abs(twice.z[i] - once.z[i])).toBeLessThan(1e-4);
  });

  it('removes nothing from an empty grid', () => {
    const empty = emptyGrid(0, 1, 0, 1, 0.5);
    expect([...removeForm(empty, 2).coefficients]).toEqual([0, 0, 0, 0, 0, 0]);
  });
});
