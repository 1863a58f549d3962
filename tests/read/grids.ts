import { emptyGrid, type HeightGrid, xOf, yOf } from '../../src/core/geometry/index.ts';

/** A grid centred on the origin, full unless `has` says otherwise. */
export function gridOf(
  widthMm: number,
  heightMm: number,
  pitch: number,
  heightAt: (x: number, y: number) => number,
  has: (x: number, y: number) => boolean = () => true,
): HeightGrid {
  const grid = emptyGrid(-widthMm / 2, widthMm / 2, -heightMm / 2, heightMm / 2, pitch);
  for (let r = 0; r < grid.height; r++)
    for (let c = 0; c < grid.width; c++) {
      const x = xOf(grid, c);
      const y = yOf(grid, r);
      if (!has(x, y)) continue;
      grid.mask[r * grid.width + c] = 1;
      grid.z[r * grid.width + c] = heightAt(x, y);
    }
  return grid;
}

/** A small full grid from rows of heights, top row first. */
export function gridFromRows(rows: readonly (readonly number[])[], pitch: number): HeightGrid {
  const width = rows[0].length;
  const z = Float32Array.from(rows.flat());
  return { width, height: rows.length, pitch, left: 0, top: 0, z, mask: new Uint8Array(z.length).fill(1) };
}

/** Index of the cell nearest to (x, y) mm. */
export const cellAt = (grid: HeightGrid, x: number, y: number): number =>
  Math.round((grid.top - y) / grid.pitch) * grid.width + Math.round((x - grid.left) / grid.pitch);
