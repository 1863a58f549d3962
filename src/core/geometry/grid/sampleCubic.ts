import { columnOf, type HeightGrid, rowOf, sampleCells } from './heightGrid.ts';

/**
 * Height at (x, y) mm by Catmull and Rom's cubic in both directions, so that crests keep their height and a picture finer
 * than the scan shows no facets under a low lamp; bilinear where one of the sixteen cells has no data; NaN where one of
 * the four has none.
 */
export const sampleCubic = (grid: HeightGrid, x: number, y: number): number =>
  sampleCellsCubic(grid, columnOf(grid, x), rowOf(grid, y));

/** The same at a place in cells, column and row. */
export function sampleCellsCubic(grid: HeightGrid, c: number, r: number): number {
  const { width, height, z, mask } = grid;
  const c0 = Math.floor(c);
  const r0 = Math.floor(r);
  if (!(c0 >= 1 && r0 >= 1 && c0 < width - 2 && r0 < height - 2)) return sampleCells(grid, c, r);
  const i = (r0 - 1) * width + c0 - 1;
  for (let k = i; k < i + 4 * width; k += width)
    if (!(mask[k] && mask[k + 1] && mask[k + 2] && mask[k + 3])) return sampleCells(grid, c, r);
  const u = c - c0;
  const row = (k: number): number => cubic(z[k], z[k + 1], z[k + 2], z[k + 3], u);
  return cubic(row(i), row(i + width), row(i + 2 * width), row(i + 3 * width), r - r0);
}

const cubic = (a: number, b: number, c: number, d: number, t: number): number =>
  b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));
