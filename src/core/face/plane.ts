import type { Plane, PlaneCells } from '../../kernels/index.ts';
import { type HeightGrid, seededRandom } from '../geometry/index.ts';
import { planeCellsOf } from './planeCells.ts';

export type { Plane };

export const heightOver = (plane: Plane, x: number, y: number): number => plane.a + plane.b * x + plane.c * y;

/**
 * The plane that most cells of the grid lie within `tolerance` of, found by random triples (RANSAC, Fischler and
 * Bolles 1981) and refined by least squares over its inliers. Null where the grid has fewer than three cells.
 * The triples are drawn from a fixed seed and the grid has no vertex order, so the answer is always the same.
 */
export function dominantPlane(grid: HeightGrid, tolerance: number, trials = 300): Plane | null {
  const among = planeCellsOf(grid);
  if (among.cells.length < 9) return null;
  const best = bestOf(among, tolerance, trials);
  return best && refinePlane(among, best, tolerance);
}

function bestOf({ cells, inliers }: PlaneCells, tolerance: number, trials: number): Plane | null {
  const random = seededRandom(1);
  const count = cells.length / 3;
  // A few thousand cells say as much about a share of inliers as all of them.
  const step = Math.max(1, Math.floor(count / 3000));
  let best: Plane | null = null;
  let most = 0;
  for (let trial = 0; trial < trials; trial++) {
    const plane = planeThrough(cells, 3 * random.below(count), 3 * random.below(count), 3 * random.below(count));
    if (!plane) continue;
    const found = inliers(plane, tolerance, step, most);
    if (found <= most) continue;
    best = plane;
    most = found;
  }
  return best;
}

/** Through the cells whose triples begin at i, j and k. */
function planeThrough(cells: Float64Array, i: number, j: number, k: number): Plane | null {
  const x = cells[i];
  const y = cells[i + 1];
  const z = cells[i + 2];
  const ux = cells[j] - x;
  const uy = cells[j + 1] - y;
  const uz = cells[j + 2] - z;
  const vx = cells[k] - x;
  const vy = cells[k + 1] - y;
  const vz = cells[k + 2] - z;
  const det = ux * vy - uy * vx;
  if (Math.abs(det) < 1e-12) return null;
  const b = (uz * vy - vz * uy) / det;
  const c = (ux * vz - vx * uz) / det;
  // Steeper than 45° is the flank of something else.
  if (b * b + c * c > 1) return null;
  return { a: z - b * x - c * y, b, c };
}

function refinePlane(among: PlaneCells, start: Plane, tolerance: number): Plane {
  let plane = start;
  for (let round = 0; round < 4; round++) {
    const next = among.refined(plane, 2 * tolerance);
    if (!next) return plane;
    plane = next;
  }
  return plane;
}
