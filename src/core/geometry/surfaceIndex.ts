import { borderEdges } from './borderEdges.ts';
import type { Mesh } from './mesh.ts';
import { anyPerpendicular, cross, normalise, type Vec3 } from './vector.ts';

/**
 * A triangle surface prepared for closest-point queries: flat typed arrays, so that it moves between threads.
 *
 * The engraved face of a seal is nearly a height field. So the triangles are binned by centroid into square columns over
 * a plane (axes u and v, third axis w), each column is cut into blocks of at most `blockSize` triangles from low to high
 * w, and above the columns stands a pyramid, each level halving rows and columns. Every node carries the true bounds
 * of its triangles in (u, v, w), so the answers are exact for any surface; only the speed assumes that it is flattish.
 * Designs that were tried, with their speeds: docs/compare.md.
 */
export interface SurfaceIndex {
  readonly mesh: Mesh;
  /** Vertex normals of the mesh, xyz triples, where given. */
  readonly normals?: Float32Array;
  /** Rows are the axes u, v, w: (u, v, w) = frame · (x, y, z). */
  readonly frame: Float64Array;
  /** Corner of the column grid in u and v, and the side of a column, mm. */
  readonly left: number;
  readonly low: number;
  readonly cell: number;
  /** Columns, rows and first node of each level of the pyramid; level 0 are the columns of triangles. */
  readonly levelWidth: Int32Array;
  readonly levelHeight: Int32Array;
  readonly levelStart: Int32Array;
  /** Six per node: least u, v, w, then greatest. An empty node has least above greatest. */
  readonly bounds: Float32Array;
  /** First block of each column, and one past the last. */
  readonly columnStart: Int32Array;
  /** First slot of each block, and one past the last. */
  readonly blockStart: Int32Array;
  /** Six per block, as `bounds`. */
  readonly blockBounds: Float32Array;
  /** Nine per slot: corners a, b, c in mesh coordinates. */
  readonly corners: Float32Array;
  /** Eight per slot: a disc in the triangle's plane that holds it (centre, radius), unit normal, 0. */
  readonly discs: Float32Array;
  /** Slot → triangle of the mesh. */
  readonly triangleOf: Uint32Array;
  /** Slot → open edges and corners, bits as in `borderEdges`. */
  readonly open: Uint8Array;
  /** Greatest reach of a triangle beyond its own centroid in u or v, mm. */
  readonly reach: number;
  /** Distances that differ by less count as equal, mm. */
  readonly tie: number;
}

export interface SurfaceIndexOptions {
  /** Interpolated for the compatibility test and for the answer; else the triangle's own normal is used. */
  readonly normals?: Float32Array;
  /** Which triangles to index (those of the face side); all where not given. Open edges are always those of the whole mesh. */
  readonly triangles?: Uint32Array;
  /** Direction that the face looks in; the main direction of the normals where not given. Matters for speed only. */
  readonly axis?: Vec3;
}

const trianglesPerColumn = 6;
const blockSize = 8;
const mostColumns = 4096;
/** Bounds are stored in float32 and in a turned frame: widened by this share of the coordinates' size. */
const boundsSlack = 4e-7;

/** Time O(triangles); see `SurfaceIndex`. A mesh without usable triangles gives an index that answers nothing. */
export function buildSurfaceIndex(mesh: Mesh, options: SurfaceIndexOptions = {}): SurfaceIndex {
  const chosen = options.triangles ?? upTo(mesh.triangles.length / 3);
  const frame = frameAlong(options.axis ?? mainNormalDirection(mesh, chosen));
  const turned = turnedPositions(mesh.positions, frame);
  const columns = binIntoColumns(mesh.triangles, turned, chosen);
  const blocks = cutIntoBlocks(columns, mesh.triangles, turned);
  const pyramid = buildPyramid(columns, blocks);
  return {
    mesh,
    ...(options.normals && { normals: options.normals }),
    frame,
    left: columns.left,
    low: columns.low,
    cell: columns.cell,
    ...pyramid,
    ...blocks,
    ...gatherSlots(mesh, columns.order),
    triangleOf: columns.order,
    reach: columns.reach,
    tie: 1e-14 * columns.extent,
  };
}

/** 0, 1, 2 … below `count`. */
function upTo(count: number): Uint32Array {
  const all = new Uint32Array(count);
  for (let i = 0; i < count; i++) all[i] = i;
  return all;
}

/** Rows u, v, w with w along `axis`: a right-handed frame. */
function frameAlong(axis: Vec3): Float64Array {
  const w = normalise(axis);
  const u = anyPerpendicular(w);
  return Float64Array.of(...u, ...cross(w, u), ...w);
}

/**
 * The direction that most of the area faces, front or back: main eigenvector of Σ n nᵀ / ‖n‖ by power iteration, n the
 * triangles' area vectors. A body with no preferred direction gets any.
 */
function mainNormalDirection(mesh: Mesh, chosen: Uint32Array): Vec3 {
  const { positions: p, triangles: t } = mesh;
  const m = [0, 0, 0, 0, 0, 0];
  const step = Math.max(1, Math.floor(chosen.length / 8_000));
  for (let i = 0; i < chosen.length; i += step) {
    const [a, b, c] = [0, 1, 2].map((k): Vec3 => {
      const at = 3 * t[3 * chosen[i] + k];
      return [p[at], p[at + 1], p[at + 2]];
    });
    const n = cross([b[0] - a[0], b[1] - a[1], b[2] - a[2]], [c[0] - a[0], c[1] - a[1], c[2] - a[2]]);
    const size = Math.hypot(...n);
    if (!(size > 0)) continue;
    for (const [k, x, y] of upperTriangle) m[k] += (n[x] * n[y]) / size;
  }
  let v: Vec3 = normalise([0.3, 0.5, 0.8]);
  for (let k = 0; k < 60; k++) {
    const [x, y, z] = v;
    const next = normalise([
      m[0] * x + m[1] * y + m[2] * z,
      m[1] * x + m[3] * y + m[4] * z,
      m[2] * x + m[4] * y + m[5] * z,
    ]);
    if (!(Math.hypot(...next) > 0)) break;
    v = next;
  }
  return v;
}

const upperTriangle = [
  [0, 0, 0],
  [1, 0, 1],
  [2, 0, 2],
  [3, 1, 1],
  [4, 1, 2],
  [5, 2, 2],
] as const;

function turnedPositions(p: Float32Array, f: Float64Array): Float32Array {
  const out = new Float32Array(p.length);
  for (let i = 0; i < p.length; i += 3) {
    const x = p[i];
    const y = p[i + 1];
    const z = p[i + 2];
    out[i] = f[0] * x + f[1] * y + f[2] * z;
    out[i + 1] = f[3] * x + f[4] * y + f[5] * z;
    out[i + 2] = f[6] * x + f[7] * y + f[8] * z;
  }
  return out;
}

interface Columns {
  readonly left: number;
  readonly low: number;
  readonly cell: number;
  readonly width: number;
  readonly height: number;
  /** First slot of each column, and one past the last. */
  readonly start: Int32Array;
  /** Slot → triangle. */
  readonly order: Uint32Array;
  readonly reach: number;
  readonly extent: number;
}

/** Counting sort of the triangles by the column of their centroid. */
function binIntoColumns(t: Uint32Array, turned: Float32Array, chosen: Uint32Array): Columns {
  const n = chosen.length;
  const centre = new Float32Array(2 * n);
  const box = [1, 1, -1, -1].map((sign) => sign * Number.POSITIVE_INFINITY);
  let reach = 0;
  for (let i = 0; i < n; i++) {
    const at = 3 * chosen[i];
    const a = 3 * t[at];
    const b = 3 * t[at + 1];
    const c = 3 * t[at + 2];
    const u = Math.fround((turned[a] + turned[b] + turned[c]) / 3);
    const v = Math.fround((turned[a + 1] + turned[b + 1] + turned[c + 1]) / 3);
    centre[2 * i] = u;
    centre[2 * i + 1] = v;
    if (u < box[0]) box[0] = u;
    if (v < box[1]) box[1] = v;
    if (u > box[2]) box[2] = u;
    if (v > box[3]) box[3] = v;
    reach = Math.max(
      reach,
      Math.abs(turned[a] - u),
      Math.abs(turned[b] - u),
      Math.abs(turned[c] - u),
      Math.abs(turned[a + 1] - v),
      Math.abs(turned[b + 1] - v),
      Math.abs(turned[c + 1] - v),
    );
  }
  const du = n > 0 ? box[2] - box[0] : 0;
  const dv = n > 0 ? box[3] - box[1] : 0;
  const extent = Math.max(du, dv) + reach;
  const cell = Math.max(Math.sqrt((du * dv * trianglesPerColumn) / Math.max(1, n)), extent / mostColumns, 1e-30);
  const width = Math.floor(du / cell) + 1;
  const height = Math.floor(dv / cell) + 1;
  const columnOf = new Int32Array(n);
  const start = new Int32Array(width * height + 1);
  for (let i = 0; i < n; i++) {
    const col = Math.floor((centre[2 * i] - box[0]) / cell);
    const row = Math.floor((centre[2 * i + 1] - box[1]) / cell);
    columnOf[i] = row * width + col;
    start[columnOf[i] + 1]++;
  }
  for (let k = 0; k < width * height; k++) start[k + 1] += start[k];
  const next = start.slice();
  const order = new Uint32Array(n);
  for (let i = 0; i < n; i++) order[next[columnOf[i]]++] = chosen[i];
  return { left: box[0], low: box[1], cell, width, height, start, order, reach, extent };
}

interface Blocks {
  readonly columnStart: Int32Array;
  readonly blockStart: Int32Array;
  readonly blockBounds: Float32Array;
}

/** Cuts each column into blocks from low to high w (reorders `columns.order` within a column) and bounds them. */
function cutIntoBlocks(columns: Columns, t: Uint32Array, turned: Float32Array): Blocks {
  const { start, order, extent } = columns;
  const count = start.length - 1;
  const columnStart = new Int32Array(count + 1);
  for (let k = 0; k < count; k++)
    columnStart[k + 1] = columnStart[k] + Math.ceil((start[k + 1] - start[k]) / blockSize);
  const blockStart = new Int32Array(columnStart[count] + 1);
  const blockBounds = new Float32Array(6 * columnStart[count]);
  const slack = boundsSlack * extent;
  for (let k = 0; k < count; k++) {
    const blocks = columnStart[k + 1] - columnStart[k];
    if (blocks > 1) sortByHeight(order, start[k], start[k + 1], t, turned);
    for (let b = 0; b < blocks; b++) {
      const from = start[k] + b * blockSize;
      const to = Math.min(from + blockSize, start[k + 1]);
      blockStart[columnStart[k] + b + 1] = to;
      boundTriangles(order, from, to, t, turned, slack, blockBounds, 6 * (columnStart[k] + b));
    }
  }
  return { columnStart, blockStart, blockBounds };
}

function sortByHeight(order: Uint32Array, from: number, to: number, t: Uint32Array, turned: Float32Array): void {
  const height = (i: number): number =>
    turned[3 * t[3 * i] + 2] + turned[3 * t[3 * i + 1] + 2] + turned[3 * t[3 * i + 2] + 2];
  order.subarray(from, to).sort((a, b) => height(a) - height(b));
}

function boundTriangles(
  order: Uint32Array,
  from: number,
  to: number,
  t: Uint32Array,
  turned: Float32Array,
  slack: number,
  out: Float32Array,
  at: number,
): void {
  let u0 = Number.POSITIVE_INFINITY;
  let v0 = u0;
  let w0 = u0;
  let u1 = -u0;
  let v1 = -u0;
  let w1 = -u0;
  for (let slot = from; slot < to; slot++)
    for (let k = 0; k < 3; k++) {
      const p = 3 * t[3 * order[slot] + k];
      const u = turned[p];
      const v = turned[p + 1];
      const w = turned[p + 2];
      if (u < u0) u0 = u;
      if (v < v0) v0 = v;
      if (w < w0) w0 = w;
      if (u > u1) u1 = u;
      if (v > v1) v1 = v;
      if (w > w1) w1 = w;
    }
  out[at] = u0 - slack;
  out[at + 1] = v0 - slack;
  out[at + 2] = w0 - slack;
  out[at + 3] = u1 + slack;
  out[at + 4] = v1 + slack;
  out[at + 5] = w1 + slack;
}

interface Pyramid {
  readonly levelWidth: Int32Array;
  readonly levelHeight: Int32Array;
  readonly levelStart: Int32Array;
  readonly bounds: Float32Array;
}

function buildPyramid(columns: Columns, blocks: Blocks): Pyramid {
  const widths = [columns.width];
  const heights = [columns.height];
  const starts = [0];
  let nodes = columns.width * columns.height;
  while (widths[widths.length - 1] > 1 || heights[heights.length - 1] > 1) {
    starts.push(nodes);
    widths.push(Math.ceil(widths[widths.length - 1] / 2));
    heights.push(Math.ceil(heights[heights.length - 1] / 2));
    nodes += widths[widths.length - 1] * heights[heights.length - 1];
  }
  const bounds = new Float32Array(6 * nodes);
  for (let i = 0; i < bounds.length; i++) bounds[i] = i % 6 < 3 ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
  const { columnStart, blockBounds } = blocks;
  for (let k = 0; k + 1 < columnStart.length; k++)
    for (let b = columnStart[k]; b < columnStart[k + 1]; b++) widen(bounds, 6 * k, blockBounds, 6 * b);
  for (let level = 1; level < widths.length; level++)
    for (let row = 0; row < heights[level - 1]; row++)
      for (let col = 0; col < widths[level - 1]; col++) {
        const child = starts[level - 1] + row * widths[level - 1] + col;
        const parent = starts[level] + (row >> 1) * widths[level] + (col >> 1);
        widen(bounds, 6 * parent, bounds, 6 * child);
      }
  return {
    levelWidth: Int32Array.from(widths),
    levelHeight: Int32Array.from(heights),
    levelStart: Int32Array.from(starts),
    bounds,
  };
}

function widen(into: Float32Array, at: number, from: Float32Array, k: number): void {
  for (let i = 0; i < 3; i++) {
    if (from[k + i] < into[at + i]) into[at + i] = from[k + i];
    if (from[k + i + 3] > into[at + i + 3]) into[at + i + 3] = from[k + i + 3];
  }
}

/** What the queries read, side by side in slot order, so that a block is one stretch of memory. */
function gatherSlots(mesh: Mesh, order: Uint32Array): { corners: Float32Array; discs: Float32Array; open: Uint8Array } {
  const { positions: p, triangles: t } = mesh;
  const openOf = borderEdges(mesh);
  const corners = new Float32Array(9 * order.length);
  const discs = new Float32Array(8 * order.length);
  const open = new Uint8Array(order.length);
  for (let slot = 0; slot < order.length; slot++) {
    const triangle = order[slot];
    open[slot] = openOf[triangle];
    const at = 9 * slot;
    const a = 3 * t[3 * triangle];
    const b = 3 * t[3 * triangle + 1];
    const c = 3 * t[3 * triangle + 2];
    for (let k = 0; k < 3; k++) {
      corners[at + k] = p[a + k];
      corners[at + 3 + k] = p[b + k];
      corners[at + 6 + k] = p[c + k];
    }
    writeDisc(corners, at, discs, 8 * slot);
  }
  return { corners, discs, open };
}

function writeDisc(t: Float32Array, at: number, discs: Float32Array, k: number): void {
  const ux = t[at + 3] - t[at];
  const uy = t[at + 4] - t[at + 1];
  const uz = t[at + 5] - t[at + 2];
  const vx = t[at + 6] - t[at];
  const vy = t[at + 7] - t[at + 1];
  const vz = t[at + 8] - t[at + 2];
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const length = Math.sqrt(nx * nx + ny * ny + nz * nz) || 1;
  discs[k] = t[at] + (ux + vx) / 3;
  discs[k + 1] = t[at + 1] + (uy + vy) / 3;
  discs[k + 2] = t[at + 2] + (uz + vz) / 3;
  // From the centroid to a corner is a third of a sum of two sides.
  const a = (ux + vx) ** 2 + (uy + vy) ** 2 + (uz + vz) ** 2;
  const b = (2 * ux - vx) ** 2 + (2 * uy - vy) ** 2 + (2 * uz - vz) ** 2;
  const c = (2 * vx - ux) ** 2 + (2 * vy - uy) ** 2 + (2 * vz - uz) ** 2;
  const size = Math.abs(t[at]) + Math.abs(t[at + 1]) + Math.abs(t[at + 2]);
  discs[k + 3] = Math.sqrt(Math.max(a, b, c)) / 3 + boundsSlack * size;
  discs[k + 4] = nx / length;
  discs[k + 5] = ny / length;
  discs[k + 6] = nz / length;
}
