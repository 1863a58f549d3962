import { insidePolygon } from '../../face/index.ts';
import type { HeightGrid } from '../../geometry/index.ts';
import type { WearRelief } from '../relief/relief.ts';

/**
 * Outline of a set of cells that hang together: the longest closed way along the cells' sides, as x, y pairs in the
 * grid's frame, mm, counter-clockwise, with points on straight runs and steps of single cells left out.
 */
export function cellOutline(grid: HeightGrid, cells: Iterable<number>): Float64Array {
  const loops = cellWays(grid.width, cells);
  return placed(
    grid,
    loops.reduce((best, loop) => (loop.length > best.length ? loop : best), loops[0] ?? []),
  );
}

/** Every closed way along the cells' sides, those round holes too, as `cellOutline` gives the longest. */
export const cellOutlines = (grid: CellFrame, cells: Iterable<number>): Float64Array[] =>
  cellWays(grid.width, cells).map((loop) => placed(grid, loop));

type CellFrame = Pick<HeightGrid, 'width' | 'pitch' | 'left' | 'top'>;

/** Thinned in whole cells, where ties are exact: the same cells give the same outline wherever the grid lies. */
function placed({ width, pitch, left, top }: CellFrame, loop: readonly number[]): Float64Array {
  const corners = width + 1;
  const points = loop.map((k): [number, number] => [k % corners, Math.floor(k / corners)]);
  return Float64Array.from(
    thinned(points, 0.6).flatMap(([column, row]) => [left + (column - 0.5) * pitch, top - (row - 0.5) * pitch]),
  );
}

/** Closed ways round cells, as corners of these, `row * (width + 1) + column`. */
export function cellWays(width: number, cells: Iterable<number>): number[][] {
  const set = new Set(cells);
  const next = new Map<number, number[]>();
  const corners = width + 1;
  const corner = (row: number, col: number): number => row * corners + col;
  const link = (from: number, to: number): void => {
    const list = next.get(from);
    if (list) list.push(to);
    else next.set(from, [to]);
  };
  for (const i of set) {
    const row = Math.floor(i / width);
    const col = i % width;
    if (!set.has(i + width)) link(corner(row + 1, col), corner(row + 1, col + 1));
    if (!set.has(i - width)) link(corner(row, col + 1), corner(row, col));
    if (col === width - 1 || !set.has(i + 1)) link(corner(row + 1, col + 1), corner(row, col + 1));
    if (col === 0 || !set.has(i - 1)) link(corner(row, col), corner(row + 1, col));
  }
  return closedWays(next);
}

function closedWays(next: Map<number, number[]>): number[][] {
  const ways: number[][] = [];
  for (const start of next.keys()) {
    while ((next.get(start)?.length ?? 0) > 0) {
      const way: number[] = [];
      let at = start;
      for (;;) {
        const to = next.get(at)?.pop();
        if (to === undefined) break;
        way.push(at);
        at = to;
        if (at === start) break;
      }
      ways.push(way);
    }
  }
  return ways;
}

/** Leaves out points that lie within `tolerance` of the line between those kept (Ramer 1972, Douglas and Peucker 1973). */
function thinned(points: readonly [number, number][], tolerance: number): [number, number][] {
  if (points.length < 5) return [...points];
  const half = Math.floor(points.length / 2);
  const one = simplify(points.slice(0, half + 1), tolerance);
  const two = simplify([...points.slice(half), points[0]], tolerance);
  return [...one.slice(0, -1), ...two.slice(0, -1)];
}

function simplify(points: readonly [number, number][], tolerance: number): [number, number][] {
  const [ax, ay] = points[0];
  const [bx, by] = points[points.length - 1];
  const length = Math.hypot(bx - ax, by - ay);
  let [far, at] = [0, -1];
  for (let k = 1; k < points.length - 1; k++) {
    const px = points[k][0];
    const py = points[k][1];
    const off =
      length > 0 ? Math.abs((px - ax) * (by - ay) - (py - ay) * (bx - ax)) / length : Math.hypot(px - ax, py - ay);
    if (off > far) [far, at] = [off, k];
  }
  if (at < 0 || far <= tolerance) return [points[0], points[points.length - 1]];
  return [...simplify(points.slice(0, at + 1), tolerance).slice(0, -1), ...simplify(points.slice(at), tolerance)];
}

/**
 * Cells of a mark: those within its outline (the reference's face frame, mm) and as far again beside it as a cut's foot lies
 * outside its width at half depth, a third of a millimetre or two cells at most.
 */
export function cellsOfMark(
  { reference, turned }: Pick<WearRelief, 'reference' | 'turned'>,
  { outline }: { readonly outline: Float64Array },
): number[] {
  const { width, pitch } = reference;
  const own = turned ? outline.map((value, k) => (k % 2 === 0 ? -value : value)) : outline;
  const within = insidePolygon(reference, own);
  const reach = Math.max(1, Math.min(2, Math.round(0.33 / pitch)));
  const cells = new Set<number>();
  for (let i = 0; i < within.length; i++) {
    if (!within[i]) continue;
    for (let dy = -reach; dy <= reach; dy++) for (let dx = -reach; dx <= reach; dx++) cells.add(i + dy * width + dx);
  }
  return [...cells].filter((i) => i >= 0 && i < within.length);
}
