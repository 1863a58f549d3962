import { fitForm, type HeightGrid, lessForm, withHeights } from '../geometry/index.ts';

/** Heights off the second-order form of the cells `inside`, on the cells in question, mm. */
export const offForm = (grid: HeightGrid, cells: Uint8Array, inside: Uint8Array): HeightGrid =>
  lessForm(withHeights(grid, grid.z, cells), fitForm(withHeights(grid, grid.z, inside), 2));
