/** Bins triangles into columns over a plane, cuts the columns into blocks and raises the pyramid of bounds: see SurfaceIndex. */

const trianglesPerColumn = 6;
const blockSize = 8;
const mostColumns = 4096;
/** Bounds are taken from turned coordinates rounded to float32: widened by this share of the coordinates' size. */
export const boundsSlack = 4e-7;

export interface Columns {
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
export function binIntoColumns(t: Uint32Array, turned: Float32Array, chosen: Uint32Array): Columns {
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

export interface Blocks {
  readonly columnStart: Int32Array;
  readonly blockStart: Int32Array;
  readonly blockBounds: Float32Array;
}

/** Cuts each column into blocks from low to high w (reorders `columns.order` within a column) and bounds them. */
export function cutIntoBlocks(columns: Columns, t: Uint32Array, turned: Float32Array): Blocks {
  const { start, order } = columns;
  const count = start.length - 1;
  const columnStart = new Int32Array(count + 1);
  for (let k = 0; k < count; k++)
    columnStart[k + 1] = columnStart[k] + Math.ceil((start[k + 1] - start[k]) / blockSize);
  const blockStart = new Int32Array(columnStart[count] + 1);
  const blockBounds = new Float32Array(6 * columnStart[count]);
  for (let k = 0; k < count; k++) {
    const blocks = columnStart[k + 1] - columnStart[k];
    if (blocks > 1) sortByHeight(order, start[k], start[k + 1], t, turned);
    for (let b = 0; b < blocks; b++) {
      const from = start[k] + b * blockSize;
      const to = Math.min(from + blockSize, start[k + 1]);
      blockStart[columnStart[k] + b + 1] = to;
      boundTriangles(order, from, to, t, turned, blockBounds, 6 * (columnStart[k] + b));
    }
  }
  return { columnStart, blockStart, blockBounds };
}

/** Up to so many are sorted by inserting one after another: a column holds few, and a call of the engine's sort costs more than they do. */
const mostInserted = 48;
const heights = new Float64Array(mostInserted);

/** Stable, from low to high. */
function sortByHeight(order: Uint32Array, from: number, to: number, t: Uint32Array, turned: Float32Array): void {
  if (to - from > mostInserted) {
    order.subarray(from, to).sort((a, b) => threeHeights(a, t, turned) - threeHeights(b, t, turned));
    return;
  }
  for (let i = from; i < to; i++) {
    const triangle = order[i];
    const height = threeHeights(triangle, t, turned);
    let k = i;
    for (; k > from && heights[k - from - 1] > height; k--) {
      heights[k - from] = heights[k - from - 1];
      order[k] = order[k - 1];
    }
    heights[k - from] = height;
    order[k] = triangle;
  }
}

const threeHeights = (i: number, t: Uint32Array, turned: Float32Array): number =>
  turned[3 * t[3 * i] + 2] + turned[3 * t[3 * i + 1] + 2] + turned[3 * t[3 * i + 2] + 2];

function boundTriangles(
  order: Uint32Array,
  from: number,
  to: number,
  t: Uint32Array,
  turned: Float32Array,
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
  const slack = boundsSlack * Math.max(-u0, u1, -v0, v1, -w0, w1);
  out[at] = u0 - slack;
  out[at + 1] = v0 - slack;
  out[at + 2] = w0 - slack;
  out[at + 3] = u1 + slack;
  out[at + 4] = v1 + slack;
  out[at + 5] = w1 + slack;
}

export interface Pyramid {
  readonly levelWidth: Int32Array;
  readonly levelHeight: Int32Array;
  readonly levelStart: Int32Array;
  readonly bounds: Float32Array;
}

export function buildPyramid(columns: Columns, blocks: Blocks): Pyramid {
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
