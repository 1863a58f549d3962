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
  const cells: number[] = [];
  for (let row = 0; row < grid.height; row++)
    for (let col = 0; col < grid.width; col++) {
      const i = row * grid.width + col;
      if (grid.mask[i]) cells.push(xOf(grid, col), yOf(grid, row), grid.z[i]);
    }
  return Float64Array.from(cells);
}

function bestOf(cells: Float64Array, tolerance: number, trials: number, draw: () => Plane | null): Plane | null {
  // A few thousand cells say as much about a share of inliers as all of them.
  const step = 3 * Math.max(1, Math.floor(cells.length / 3 / 3000));
  let best: Plane | null = null;
  let most = 0;
  for (let trial = 0; trial < trials; trial++) {
    const plane = draw();
    if (!plane) continue;
    let inliers = 0;
    for (let i = 0; i < cells.length; i += step)
      if (Math.abs(cells[i + 2] - heightOver(plane, cells[i], cells[i + 1])) < tolerance) inliers++;
    if (inliers > most) [best, most] = [plane, inliers];
  }
  return best;
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
    const next = leastSquaresPlane(cells, (i) => {
      const off = Math.abs(cells[i + 2] - heightOver(plane, cells[i], cells[i + 1])) / (2 * tolerance);
      return off < 1 ? (1 - off * off) ** 2 : 0;
    });
    if (!next) return plane;
    plane = next;
  }
  return plane;
}

function leastSquaresPlane(cells: Float64Array, weightAt: (i: number) => number): Plane | null {
  let [w, wx, wy, wz, wxx, wxy, wyy, wxz, wyz] = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  for (let i = 0; i < cells.length; i += 3) {
    const weight = weightAt(i);
    if (weight === 0) continue;
    const [x, y, z] = [cells[i], cells[i + 1], cells[i + 2]];
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
