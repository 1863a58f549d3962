import { type Plane, type PlaneCells, planeCells } from '../../kernels/index.ts';
import { type HeightGrid, xOf, yOf } from '../geometry/index.ts';

/** By a compiled kernel where the engine lets it run, which gives the same numbers as `planeCellsPlainly`. Good until the next are asked for. */
export const planeCellsOf = (grid: HeightGrid): PlaneCells => planeCells(grid) ?? planeCellsPlainly(grid);

export function planeCellsPlainly(grid: HeightGrid): PlaneCells {
  const cells = cellsOf(grid);
  return {
    cells,
    inliers: (plane, tolerance, step, most) => inliersOf(cells, plane, tolerance, 3 * step, most),
    refined: (last, reach) => leastSquaresPlane(cells, last, reach),
  };
}

function cellsOf(grid: HeightGrid): Float64Array {
  const { width, height, mask, z } = grid;
  const cells = new Float64Array(3 * z.length);
  let n = 0;
  for (let row = 0, i = 0; row < height; row++)
    for (let col = 0; col < width; col++, i++) {
      if (!mask[i]) continue;
      cells[n] = xOf(grid, col);
      cells[n + 1] = yOf(grid, row);
      cells[n + 2] = z[i];
      n += 3;
    }
  return cells.slice(0, n);
}

/** Counting ends where not even all that is left could make more than `most`. */
function inliersOf(cells: Float64Array, { a, b, c }: Plane, tolerance: number, step: number, most: number): number {
  const stretch = step * 256;
  let inliers = 0;
  for (let from = 0; from < cells.length; from += stretch) {
    if (inliers + (cells.length - from) / step < most) break;
    const to = Math.min(cells.length, from + stretch);
    for (let i = from; i < to; i += step)
      if (Math.abs(cells[i + 2] - (a + b * cells[i] + c * cells[i + 1])) < tolerance) inliers++;
  }
  return inliers;
}

function leastSquaresPlane(cells: Float64Array, last: Plane, reach: number): Plane | null {
  let [w, wx, wy, wz, wxx, wxy, wyy, wxz, wyz] = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  for (let i = 0; i < cells.length; i += 3) {
    const x = cells[i];
    const y = cells[i + 1];
    const z = cells[i + 2];
    const off = Math.abs(z - (last.a + last.b * x + last.c * y)) / reach;
    if (!(off < 1)) continue;
    const weight = (1 - off * off) ** 2;
    w += weight;
    wx += weight * x;
    wy += weight * y;
    wz += weight * z;
    wxx += weight * x * x;
    wxy += weight * x * y;
    wyy += weight * y * y;
    wxz += weight * x * z;
    wyz += weight * y * z;
  }
  const sxx = wxx - (wx * wx) / w;
  const sxy = wxy - (wx * wy) / w;
  const syy = wyy - (wy * wy) / w;
  const sxz = wxz - (wx * wz) / w;
  const syz = wyz - (wy * wz) / w;
  const det = sxx * syy - sxy * sxy;
  if (!(Math.abs(det) > 1e-12)) return null;
  const b = (sxz * syy - syz * sxy) / det;
  const c = (syz * sxx - sxz * sxy) / det;
  return { a: (wz - b * wx - c * wy) / w, b, c };
}
