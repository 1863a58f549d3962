import { outwardNormals, type Way } from './outerEdge.ts';

/**
 * How far outside each point of an edge the nearest stretch of another runs, mm, negative where it runs inside; Infinity where
 * none that runs the same way lies within `mostMm`. Both are closed and counter-clockwise.
 */
export function edgesApart(edge: Way, other: Way, mostMm: number, normals = outwardNormals(edge)): Float64Array {
  const near = cellsOf(other, mostMm);
  const apart = new Float64Array(edge.length / 2).fill(Number.POSITIVE_INFINITY);
  for (let i = 0; i < edge.length; i += 2) {
    const [nx, ny] = [normals[i], normals[i + 1]];
    let least = mostMm;
    for (const j of near(edge[i], edge[i + 1])) {
      const [dx, dy, along] = toSide(edge[i], edge[i + 1], other, j, nx, ny);
      const distance = Math.hypot(dx, dy);
      if (along <= 0 || distance >= least) continue;
      least = distance;
      apart[i / 2] = dx * nx + dy * ny >= 0 ? distance : -distance;
    }
  }
  return apart;
}

/** From (x, y) to the nearest place of the other's side from point j on, and how much that side runs along the edge. */
function toSide(x: number, y: number, other: Way, j: number, nx: number, ny: number): [number, number, number] {
  const k = (j + 2) % other.length;
  const [ex, ey] = [other[k] - other[j], other[k + 1] - other[j + 1]];
  const [px, py] = [x - other[j], y - other[j + 1]];
  const t = Math.max(0, Math.min(1, (px * ex + py * ey) / (ex * ex + ey * ey || 1)));
  return [t * ex - px, t * ey - py, ey * nx - ex * ny];
}

/** Points of the way in the nine squares of `side` mm about a place. */
function cellsOf(way: Way, side: number): (x: number, y: number) => number[] {
  const cells = new Map<string, number[]>();
  for (let i = 0; i < way.length; i += 2) {
    const key = `${Math.floor(way[i] / side)},${Math.floor(way[i + 1] / side)}`;
    const list = cells.get(key);
    if (list) list.push(i);
    else cells.set(key, [i]);
  }
  return (x, y) => {
    const [column, row] = [Math.floor(x / side), Math.floor(y / side)];
    const found: number[] = [];
    for (let dy = -1; dy <= 1; dy++)
      for (let dx = -1; dx <= 1; dx++) found.push(...(cells.get(`${column + dx},${row + dy}`) ?? []));
    return found;
  };
}
