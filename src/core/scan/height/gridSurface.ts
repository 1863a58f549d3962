import type { Budget } from '../admission/budget.ts';
import { checkSize } from '../limits.ts';
import type { Surface } from '../surface.ts';

/** Heights on a grid of columns and rows, row by row; NaN where there is none. */
export interface Heights {
  readonly columns: number;
  readonly rows: number;
  readonly z: ArrayLike<number>;
  /** Place of a cell in the file's unit. */
  x(column: number, row: number): number;
  y(column: number, row: number): number;
}

/**
 * One vertex for each cell with a height, row by row; two triangles for four neighbouring cells, one where three have
 * a height. All face +z: `turned` says that x and y grow in opposite ways, so that columns before rows would wind
 * clockwise. The squares are cut from each cell to the one at the next column and row.
 */
export function surfaceOfHeights(heights: Heights, turned: boolean, budget: Budget): Surface {
  const { columns, rows, z } = heights;
  checkSize(columns * rows, columns * rows * 2);
  // A number, three coordinates in float64 and six corners a cell.
  budget.bytes(columns * rows * 52);
  const vertexAt = new Int32Array(columns * rows).fill(-1);
  let count = 0;
  for (let i = 0; i < vertexAt.length; i++) if (Number.isFinite(z[i])) vertexAt[i] = count++;
  const coordinates = new Float64Array(count * 3);
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const i = row * columns + column;
      const at = vertexAt[i] * 3;
      if (at < 0) continue;
      coordinates[at] = heights.x(column, row);
      coordinates[at + 1] = heights.y(column, row);
      coordinates[at + 2] = z[i];
    }
  return { coordinates, triangles: trianglesOfGrid(columns, rows, vertexAt, turned) };
}

function trianglesOfGrid(columns: number, rows: number, vertexAt: Int32Array, turned: boolean): Uint32Array {
  const out = new Uint32Array(Math.max(0, (columns - 1) * (rows - 1) * 6));
  let used = 0;
  const add = (p: number, q: number, r: number) => {
    out[used] = p;
    out[used + 1] = turned ? r : q;
    out[used + 2] = turned ? q : r;
    used += 3;
  };
  for (let row = 0; row + 1 < rows; row++)
    for (let column = 0; column + 1 < columns; column++) {
      const i = row * columns + column;
      const a = vertexAt[i];
      const b = vertexAt[i + 1];
      const c = vertexAt[i + columns + 1];
      const d = vertexAt[i + columns];
      if (a >= 0 && b >= 0 && c >= 0) add(a, b, c);
      if (a >= 0 && c >= 0 && d >= 0) add(a, c, d);
      if (c < 0 && a >= 0 && b >= 0 && d >= 0) add(a, b, d);
      if (a < 0 && b >= 0 && c >= 0 && d >= 0) add(b, c, d);
    }
  return out.slice(0, used);
}
