import type { HeightGrid } from '../geometry/index.ts';

/**
 * The largest piece of the grid whose cells lie within `reach` of zero height and whose neighbouring cells differ by
 * less than `step`. Returns 1 for the cells of that piece, row-major. Four neighbours count.
 */
export function largestRegion(grid: HeightGrid, reach: number, step: number): Uint8Array {
  const { width, z, mask } = grid;
  const label = new Int32Array(z.length);
  const stack = new Int32Array(z.length);
  let best = 0;
  let bestSize = 0;
  let current = 0;
  const inside = (i: number): boolean => mask[i] === 1 && Math.abs(z[i]) < reach;
  const joins = (j: number, i: number): boolean =>
    j >= 0 && j < z.length && label[j] === 0 && inside(j) && Math.abs(z[j] - z[i]) <= step;
  for (let seed = 0; seed < z.length; seed++) {
    if (label[seed] !== 0 || !inside(seed)) continue;
    current++;
    let top = 0;
    let size = 0;
    stack[top++] = seed;
    label[seed] = current;
    while (top > 0) {
      const i = stack[--top];
      size++;
      const col = i % width;
      const first = top;
      if (col > 0 && joins(i - 1, i)) stack[top++] = i - 1;
      if (col < width - 1 && joins(i + 1, i)) stack[top++] = i + 1;
      if (joins(i - width, i)) stack[top++] = i - width;
      if (joins(i + width, i)) stack[top++] = i + width;
      for (let k = first; k < top; k++) label[stack[k]] = current;
    }
    if (size > bestSize) [best, bestSize] = [current, size];
  }
  const region = new Uint8Array(label.length);
  if (bestSize > 0) for (let i = 0; i < label.length; i++) if (label[i] === best) region[i] = 1;
  return region;
}
