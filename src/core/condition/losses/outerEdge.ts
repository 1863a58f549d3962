import { componentsOf, type HeightGrid } from '../../geometry/index.ts';
import { cellWays } from '../marks/cellOutline.ts';

/** A closed way, x, y pairs, mm, counter-clockwise; the last point goes on to the first. */
export type Way = Float64Array;

/** The corners of the cells are smoothed along the way by this binomial, twice: a staircase of cells is no edge. */
const kernel = [1, 4, 6, 4, 1].map((weight) => weight / 16);

/** The edge of a surface: the way round its largest part, holes left out, in the grid's frame. */
export function outerEdge(grid: HeightGrid): Way {
  const parts = componentsOf(grid.mask, grid.width);
  const largest = parts.reduce((best, part) => (part.length > best.length ? part : best), parts[0] ?? []);
  const ways = cellWays(grid.width, largest);
  const way = ways.reduce((best, each) => (each.length > best.length ? each : best), ways[0] ?? []);
  const corners = grid.width + 1;
  const points = Float64Array.from(
    way.flatMap((k) => [
      grid.left + ((k % corners) - 0.5) * grid.pitch,
      grid.top - (Math.floor(k / corners) - 0.5) * grid.pitch,
    ]),
  );
  return counterClockwise(smoothed(smoothed(points)));
}

function smoothed(way: Way): Way {
  const n = way.length;
  return way.map((_, i) => kernel.reduce((sum, weight, k) => sum + weight * way[(i + 2 * (k - 2) + 2 * n) % n], 0));
}

function counterClockwise(way: Way): Way {
  let twice = 0;
  for (let i = 0; i < way.length; i += 2) {
    const j = (i + 2) % way.length;
    twice += way[i] * way[j + 1] - way[j] * way[i + 1];
  }
  if (twice >= 0) return way;
  const turned = new Float64Array(way.length);
  for (let i = 0; i < way.length; i += 2) turned.set(way.subarray(way.length - 2 - i, way.length - i), i);
  return turned;
}

/** The same way by points `stepMm` apart along it, as nearly as its length allows. */
export function evenly(way: Way, stepMm: number): Way {
  const n = way.length / 2;
  const along = new Float64Array(n + 1);
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    along[i + 1] = along[i] + Math.hypot(way[2 * j] - way[2 * i], way[2 * j + 1] - way[2 * i + 1]);
  }
  const count = Math.round(along[n] / stepMm);
  const out = new Float64Array(2 * count);
  for (let k = 0, i = 0; k < count; k++) {
    const at = (k * along[n]) / count;
    while (along[i + 1] < at) i++;
    const j = (i + 1) % n;
    const t = (at - along[i]) / Math.max(1e-12, along[i + 1] - along[i]);
    out[2 * k] = way[2 * i] + t * (way[2 * j] - way[2 * i]);
    out[2 * k + 1] = way[2 * i + 1] + t * (way[2 * j + 1] - way[2 * i + 1]);
  }
  return out;
}

/** Outward normals of a counter-clockwise way, from the points `reach` before and after each. */
export function outwardNormals(way: Way, reach = 3): Float64Array {
  const n = way.length;
  const normals = new Float64Array(n);
  for (let i = 0; i < n; i += 2) {
    const before = (i - 2 * reach + n) % n;
    const after = (i + 2 * reach) % n;
    const [dx, dy] = [way[after] - way[before], way[after + 1] - way[before + 1]];
    const length = Math.hypot(dx, dy) || 1;
    normals[i] = dy / length;
    normals[i + 1] = -dx / length;
  }
  return normals;
}
