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
  for (let i = 0; i < grid.mask.length; i++) {
    if (!grid.mask[i]) continue;
    const col = i % grid.width;
    const row = Math.floor(i / grid.width);
    first = Math.min(first, col);
    last = Math.max(last, col);
    upper = Math.min(upper, row);
    lower = Math.max(lower, row);
  }
  return { left: xOf(grid, first), right: xOf(grid, last), bottom: yOf(grid, lower), top: yOf(grid, upper) };
}
