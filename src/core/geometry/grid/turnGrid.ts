import { emptyGrid, type HeightGrid, sampleGrid, xOf, yOf } from './heightGrid.ts';

/**
 * The grid after a turn about the origin, degrees clockwise, at its own pitch: (x, y) → (c x + s y, −s x + c y), bilinear. The
 * window is just so large that everything with data lies in it. The same grid where the turn moves nothing by half a cell.
 */
export function turnGrid(grid: HeightGrid, clockwiseDeg: number): HeightGrid {
  const t = (clockwiseDeg * Math.PI) / 180;
  const reach = Math.max(...[0, 1].map((k) => Math.hypot(xOf(grid, k * grid.width), yOf(grid, k * grid.height))));
  if (2 * Math.abs(Math.sin(t / 2)) * reach < grid.pitch / 2) return grid;
  const [c, s] = [Math.cos(t), Math.sin(t)];
  const [x0, x1, y0, y1] = turnedWindow(grid, c, s);
  const out = emptyGrid(x0, x1, y0, y1, grid.pitch);
  for (let row = 0, i = 0; row < out.height; row++)
    for (let col = 0; col < out.width; col++, i++) {
      const [x, y] = [xOf(out, col), yOf(out, row)];
      const value = sampleGrid(grid, c * x - s * y, s * x + c * y);
      if (Number.isNaN(value)) continue;
      out.z[i] = value;
      out.mask[i] = 1;
    }
  return out;
}

/** x and y, from and to, of the cells with data after the turn, with a cell of air. */
function turnedWindow(grid: HeightGrid, c: number, s: number): [number, number, number, number] {
  const { width, height, pitch, mask } = grid;
  const box: [number, number, number, number] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let row = 0; row < height; row++) {
    // The ends of a row reach farthest, whatever the turn.
    const [from, to] = [mask.indexOf(1, row * width), mask.lastIndexOf(1, row * width + width - 1)];
    if (from < 0 || from >= (row + 1) * width) continue;
    for (const i of [from, to]) {
      const [x, y] = [xOf(grid, i - row * width), yOf(grid, row)];
      const [u, v] = [c * x + s * y, c * y - s * x];
      box[0] = Math.min(box[0], u - pitch);
      box[1] = Math.max(box[1], u + pitch);
      box[2] = Math.min(box[2], v - pitch);
      box[3] = Math.max(box[3], v + pitch);
    }
  }
  return box[0] <= box[1] ? box : [0, 0, 0, 0];
}
