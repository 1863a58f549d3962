import { expect, it } from 'vitest';
import { emptyGrid, sampleGrid, turnGrid, xOf, yOf } from '../../../src/core/geometry/index.ts';

/** A plane within an ellipse off the middle: bilinear sampling keeps it exactly. */
function planeGrid() {
  const grid = emptyGrid(-10, 14, -12, 8, 0.25);
  for (let row = 0, i = 0; row < grid.height; row++)
    for (let col = 0; col < grid.width; col++, i++) {
      const [x, y] = [xOf(grid, col), yOf(grid, row)];
      if (((x - 2) / 9) ** 2 + ((y + 1) / 7) ** 2 > 1) continue;
      grid.z[i] = 0.3 * x - 0.2 * y + 0.05;
      grid.mask[i] = 1;
    }
  return grid;
}

const area = ({ mask, pitch }: { mask: Uint8Array; pitch: number }): number =>
  mask.reduce((sum, one) => sum + one, 0) * pitch ** 2;

it('a turned grid has at every place what lay there before the turn, and loses only its edge', () => {
  const grid = planeGrid();
  for (const deg of [15, -73, 90, 180, 271]) {
    const turned = turnGrid(grid, deg);
    const t = (deg * Math.PI) / 180;
    for (const [x, y] of [
      [3, 2],
      [-4, -2],
      [8, 0],
    ]) {
      const [u, v] = [Math.cos(t) * x + Math.sin(t) * y, Math.cos(t) * y - Math.sin(t) * x];
      expect(sampleGrid(turned, u, v)).toBeCloseTo(0.3 * x - 0.2 * y + 0.05, 5);
    }
    // An edge of half a cell all round, perimeter about 50 mm.
    expect(area(grid) - area(turned)).toBeLessThan(50 * grid.pitch);
    expect(area(turned)).toBeLessThanOrEqual(area(grid) + 1);
  }
});

it('a turn that moves nothing by half a cell gives the grid back', () => {
  const grid = planeGrid();
  expect(turnGrid(grid, 0)).toBe(grid);
  expect(turnGrid(grid, 360)).toBe(grid);
});
