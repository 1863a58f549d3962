import { type HeightGrid, seededRandom, xOf, yOf } from '../geometry/index.ts';

/** z = a + b x + c y. */
export interface Plane {
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

export const heightOver = (plane: Plane, x: number, y: number): number => plane.a + plane.b * x + plane.c * y;

/**
 * The plane that most cells of the grid lie within `tolerance` of, found by random triples (RANSAC, Fischler and
 * Bolles 1981) and refined by least squares over its inliers. Null where the grid has fewer than three cells.
 * The triples are drawn from a fixed seed and the grid has no vertex order, so the answer is always the same.
 */
export function dominantPlane(grid: HeightGrid, tolerance: number, trials = 300): Plane | null {
  const cells = cellsOf(grid);
  if (cells.length < 9) return null;
  const random = seededRandom(1);
  const count = cells.length / 3;
  const triple = (): Plane | null => {
    const [i, j, k] = [random.below(count), random.below(count), random.below(count)];
    return planeThrough(cells, [i, j, k]);
  };
  const best = bestOf(cells, tolerance, trials, triple);
  return best && refinePlane(cells, best, tolerance);
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

function bestOf(cells: Float64Array, tolerance: number, trials: number, draw: () => Plane | null): Plane | null {
  // A few thousand cells say as much about a share of inliers as all of them.
  const step = 3 * Math.max(1, Math.floor(cells.length / 3 / 3000));
  let best: Plane | null = null;
  let most = 0;
  for (let trial = 0; trial < trials; trial++) {
    const plane = draw();
    if (!plane) continue;
    const inliers = inliersOf(cells, plane, tolerance, step, most);
    if (inliers > most) [best, most] = [plane, inliers];
  }
  return best;
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

function planeThrough(cells: Float64Array, [i, j, k]: [number, number, number]): Plane | null {
  const [x, y, z] = cells.subarray(i * 3, i * 3 + 3);
  const ux = cells[j * 3] - x;
  const uy = cells[j * 3 + 1] - y;
  const uz = cells[j * 3 + 2] - z;
  const vx = cells[k * 3] - x;
  const vy = cells[k * 3 + 1] - y;
  const vz = cells[k * 3 + 2] - z;
  const det = ux * vy - uy * vx;
  if (Math.abs(det) < 1e-12) return null;
  const b = (uz * vy - vz * uy) / det;
  const c = (ux * vz - vx * uz) / det;
  // Steeper than 45° is the flank of something else.
  if (b * b + c * c > 1) return null;
  return { a: z - b * x - c * y, b, c };
}

function refinePlane(cells: Float64Array, start: Plane, tolerance: number): Plane {
  let plane = start;
  for (let round = 0; round < 4; round++) {
    const next = leastSquaresPlane(cells, plane, 2 * tolerance);
    if (!next) return plane;
    plane = next;
  }
  return plane;
}

/** By Tukey's weights: none from `reach` off the last plane on. */
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
