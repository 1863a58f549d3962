import { ScanError } from '../error.ts';
import { cornerList } from './faces.ts';
import type { PlyElement, PlyHeader } from './header.ts';
import { checkRoom, type PlySource, readListLength, skipProperty } from './source.ts';

/** Neighbours further apart than this many median spacings belong to different surfaces. */
const jumpInSpacings = 5;

/** For each place of a range scan's grid the number of its vertex, or −1 where the scanner saw nothing. */
export interface RangeGrid {
  readonly columns: number;
  readonly rows: number;
  readonly vertexAt: Int32Array;
}

/** Reads the `range_grid` element, whose size is given by the `obj_info` lines num_cols and num_rows. */
export function readRangeGrid(source: PlySource, element: PlyElement, header: PlyHeader): RangeGrid {
  checkRoom(source, element);
  const columns = Number(header.info.get('num_cols'));
  const rows = Number(header.info.get('num_rows'));
  const list = cornerList(element);
  if (!list || columns * rows !== element.count)
    throw new ScanError('malformed', 'the size of the PLY range grid is not given; export the scan as triangles.');
  const vertexAt = new Int32Array(element.count).fill(-1);
  for (let i = 0; i < element.count; i++) {
    for (const property of element.properties) {
      if (property !== list) skipProperty(source, property);
      else if (readListLength(source, property) > 0) vertexAt[i] = source.read(property.type);
    }
    source.endEntry();
  }
  return { columns, rows, vertexAt };
}

/**
 * Two triangles for every four neighbouring places that were seen, one for three. A triangle with a side longer than
 * five median spacings would bridge two surfaces and is left out. The scanner looked along −z, so that the surface
 * faces +z on the whole.
 */
export function trianglesOfRangeGrid(grid: RangeGrid, p: Float32Array | Float64Array): Uint32Array {
  const { columns, rows, vertexAt } = grid;
  const count = p.length / 3;
  for (const vertex of vertexAt)
    if (vertex >= count)
      throw new ScanError('malformed', 'the PLY range grid names vertices that do not exist; export it again.');
  const jump = (jumpInSpacings * medianSpacing(grid, p)) ** 2;
  const near = (a: number, b: number) =>
    (p[a * 3] - p[b * 3]) ** 2 + (p[a * 3 + 1] - p[b * 3 + 1]) ** 2 + (p[a * 3 + 2] - p[b * 3 + 2]) ** 2 <= jump;
  const out = new Uint32Array(columns * rows * 6);
  let used = 0;
  const add = (a: number, b: number, c: number) => {
    if (a < 0 || b < 0 || c < 0 || !near(a, b) || !near(b, c) || !near(c, a)) return false;
    out[used++] = a;
    out[used++] = b;
    out[used++] = c;
    return true;
  };
  for (let row = 0; row + 1 < rows; row++)
    for (let column = 0; column + 1 < columns; column++) {
      const i = row * columns + column;
      const a = vertexAt[i];
      const b = vertexAt[i + 1];
      const c = vertexAt[i + 1 + columns];
      const d = vertexAt[i + columns];
      const first = add(a, b, c);
      const second = add(a, c, d);
      // Where one corner is missing or jumps, the other diagonal may still give one triangle.
      if (!first && !second && !add(a, b, d)) add(b, c, d);
    }
  const triangles = out.slice(0, used);
  if (summedNormalZ(triangles, p) < 0) turnAll(triangles);
  return triangles;
}

function medianSpacing(grid: RangeGrid, p: Float32Array | Float64Array): number {
  const { columns, vertexAt } = grid;
  const spacings = new Float64Array(vertexAt.length);
  let n = 0;
  for (let i = 0; i + 1 < vertexAt.length; i++) {
    if ((i + 1) % columns === 0) continue;
    const a = vertexAt[i] * 3;
    const b = vertexAt[i + 1] * 3;
    if (a >= 0 && b >= 0) spacings[n++] = Math.hypot(p[a] - p[b], p[a + 1] - p[b + 1], p[a + 2] - p[b + 2]);
  }
  return spacings.subarray(0, n).sort()[n >> 1] ?? 0;
}

function summedNormalZ(t: Uint32Array, p: Float32Array | Float64Array): number {
  let sum = 0;
  for (let i = 0; i < t.length; i += 3) {
    const a = t[i] * 3;
    const b = t[i + 1] * 3;
    const c = t[i + 2] * 3;
    sum += (p[b] - p[a]) * (p[c + 1] - p[a + 1]) - (p[b + 1] - p[a + 1]) * (p[c] - p[a]);
  }
  return sum;
}

function turnAll(t: Uint32Array): void {
  for (let i = 0; i < t.length; i += 3) {
    const b = t[i + 1];
    t[i + 1] = t[i + 2];
    t[i + 2] = b;
  }
}
