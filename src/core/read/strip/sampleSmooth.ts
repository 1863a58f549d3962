import { columnOf, type HeightGrid, rowOf, sampleGrid } from '../../geometry/index.ts';

/**
 * Height at (x, y) mm by Catmull and Rom's cubic in both directions, so that a strip finer than the scan shows no facets
 * under a low lamp; bilinear where one of the sixteen cells has no data; NaN where one of the four has none.
 */
export function sampleSmooth(grid: HeightGrid, x: number, y: number): number {
  const { width, height, z, mask } = grid;
  const c = columnOf(grid, x);
  const r = rowOf(grid, y);
  const c0 = Math.floor(c);
  const r0 = Math.floor(r);
  if (!(c0 >= 1 && r0 >= 1 && c0 < width - 2 && r0 < height - 2)) return sampleGrid(grid, x, y);
  const first = (r0 - 1) * width + c0 - 1;
  let full = 1;
  for (let k = 0; k < 4; k++) {
    const i = first + k * width;
    full &= mask[i] & mask[i + 1] & mask[i + 2] & mask[i + 3];
  }
  if (!full) return sampleGrid(grid, x, y);
  const u = c - c0;
  const v = r - r0;
  const i = first;
  const a = cubic(z[i], z[i + 1], z[i + 2], z[i + 3], u);
  const b = cubic(z[i + width], z[i + width + 1], z[i + width + 2], z[i + width + 3], u);
  const d = cubic(z[i + 2 * width], z[i + 2 * width + 1], z[i + 2 * width + 2], z[i + 2 * width + 3], u);
  const e = cubic(z[i + 3 * width], z[i + 3 * width + 1], z[i + 3 * width + 2], z[i + 3 * width + 3], u);
  return cubic(a, b, d, e, v);
}

const cubic = (a: number, b: number, c: number, d: number, t: number): number =>
  b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));
