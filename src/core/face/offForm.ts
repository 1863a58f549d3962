import { fitForm, formAt, type HeightGrid, withHeights, xOf, yOf } from '../geometry/index.ts';

/** Heights off the second-order form of the cells `inside`, on the cells in question, mm. */
export function offForm(grid: HeightGrid, cells: Uint8Array, inside: Uint8Array): HeightGrid {
  const form = fitForm(withHeights(grid, grid.z, inside), 2);
  const z = grid.z.map((value, i) =>
    cells[i] ? value - formAt(form, xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width))) : 0,
  );
  return withHeights(grid, z, cells);
}
