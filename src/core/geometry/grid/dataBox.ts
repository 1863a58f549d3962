import { type HeightGrid, xOf, yOf } from './heightGrid.ts';

/** Sides of a box upright in a grid's frame, mm. */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

/** Outermost places with data: middles of cells, mm. */
export function dataBox(grid: HeightGrid): Box {
  let [first, last, upper, lower] = [grid.width, 0, grid.height, 0];
  for (let row = 0; row < grid.height; row++) {
    const cells = grid.mask.subarray(row * grid.width, (row + 1) * grid.width);
    const from = cells.indexOf(1);
    if (from < 0) continue;
    first = Math.min(first, from);
    last = Math.max(last, cells.lastIndexOf(1));
    upper = Math.min(upper, row);
    lower = row;
  }
  return { left: xOf(grid, first), right: xOf(grid, last), bottom: yOf(grid, lower), top: yOf(grid, upper) };
}
