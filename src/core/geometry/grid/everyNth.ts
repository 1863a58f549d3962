import { gridOn, type HeightGrid } from './heightGrid.ts';

/**
 * Every `step`-th cell of every `step`-th row: for what needs so many points a stroke and no more, however fine a scan is. Noise of a
 * cell stays what it is.
 */
export function everyNth(grid: HeightGrid, step: number): HeightGrid {
  if (step <= 1) return grid;
  const width = Math.ceil(grid.width / step);
  const height = Math.ceil(grid.height / step);
  const z = new Float32Array(width * height);
  const mask = new Uint8Array(width * height);
  for (let row = 0, i = 0; row < height; row++)
    for (let from = row * step * grid.width, col = 0; col < width; col++, i++, from += step) {
      z[i] = grid.z[from];
      mask[i] = grid.mask[from];
    }
  return gridOn({ ...grid, width, height, pitch: grid.pitch * step }, z, mask);
}

/** The step, cells, by which at most `mostAcross` of them stand along a side. */
export const stepAcross = ({ width, height }: Pick<HeightGrid, 'width' | 'height'>, mostAcross: number): number =>
  Math.max(1, Math.ceil(Math.max(width, height) / mostAcross));

/** Every n-th cell of every n-th row, so that at most `mostAcross` stand along a side. */
export const everyNthAcross = (grid: HeightGrid, mostAcross: number): HeightGrid =>
  everyNth(grid, stepAcross(grid, mostAcross));
