import { type HeightGrid, sampleGrid, xOf, yOf } from './heightGrid.ts';

/** The same window at another pitch, bilinear. */
export function resampleGrid(grid: HeightGrid, pitch: number): HeightGrid {
  if (pitch === grid.pitch) return grid;
  const width = Math.max(1, Math.floor(((grid.width - 1) * grid.pitch) / pitch) + 1);
  const height = Math.max(1, Math.floor(((grid.height - 1) * grid.pitch) / pitch) + 1);
  const z = new Float32Array(width * height);
  const mask = new Uint8Array(width * height);
  const out: HeightGrid = { width, height, pitch, left: grid.left, top: grid.top, z, mask };
  for (let row = 0, i = 0; row < height; row++)
    for (let col = 0; col < width; col++, i++) {
      const value = sampleGrid(grid, xOf(out, col), yOf(out, row));
      if (Number.isNaN(value)) continue;
      z[i] = value;
      mask[i] = 1;
    }
  return out;
}
