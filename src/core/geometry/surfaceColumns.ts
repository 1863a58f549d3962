import {
  awaitStretches,
  nothingLeft,
  type SharedStretches,
  sharedStretches,
  takeStretches,
} from '../../kernels/index.ts';
import { ownRoom, type Room } from './room.ts';
import { inStretches } from './stretches.ts';

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
export function binIntoColumns(
  t: Uint32Array,
  turned: Float32Array,
  chosen: Uint32Array,
  room: Room = ownRoom,
): Columns {
  const n = chosen.length;
  const centres = { t, turned, chosen, centre: new Float32Array(2 * n), box: emptyBox(), reach: 0 };
  inStretches(centresOf, centres, n);
  const { centre, box, reach } = centres;
  const du = n > 0 ? box[2] - box[0] : 0;
  const dv = n > 0 ? box[3] - box[1] : 0;
  const extent = Math.max(du, dv) + reach;
  const cell = Math.max(Math.sqrt((du * dv * trianglesPerColumn) / Math.max(1, n)), extent / mostColumns, 1e-30);
  const width = Math.floor(du / cell) + 1;
  const height = Math.floor(dv / cell) + 1;
  const columnOf = new Int32Array(n);
  const start = new Int32Array(room(4 * (width * height + 1)));
  inStretches(countColumns, { centre, left: box[0], low: box[1], cell, width, columnOf, start }, n);
  for (let k = 0; k < width * height; k++) start[k + 1] += start[k];
  const order = new Uint32Array(room(4 * n));
  inStretches(dealToColumns, { chosen, columnOf, next: start.slice(), order }, n);
  return { left: box[0], low: box[1], cell, width, height, start, order, reach, extent };
}

const emptyBox = (): Float64Array => Float64Array.from([1, 1, -1, -1], (sign) => sign * Number.POSITIVE_INFINITY);

interface Centres {
  readonly t: Uint32Array;
  readonly turned: Float32Array;
  readonly chosen: Uint32Array;
  /** Found: u, v of each chosen triangle's centroid. */
  readonly centre: Float32Array;
  /** Found: least u, v and greatest. */
  readonly box: Float64Array;
  /** Found: greatest distance of a corner from its centroid in u or v. */
  reach: number;
}

function centresOf(job: Centres, from: number, to: number): void {
  const { t, turned, chosen, centre, box } = job;
  let reach = job.reach;
  for (let i = from; i < to; i++) {
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
  job.reach = reach;
}

interface Counted {
  readonly centre: Float32Array;
  readonly left: number;
  readonly low: number;
  readonly cell: number;
  readonly width: number;
  readonly columnOf: Int32Array;
  readonly start: Int32Array;
}

function countColumns({ centre, left, low, cell, width, columnOf, start }: Counted, from: number, to: number): void {
  for (let i = from; i < to; i++) {
    const col = Math.floor((centre[2 * i] - left) / cell);
    const row = Math.floor((centre[2 * i + 1] - low) / cell);
    columnOf[i] = row * width + col;
    start[columnOf[i] + 1]++;
  }
}

interface Dealt {
  readonly chosen: Uint32Array;
  readonly columnOf: Int32Array;
  readonly next: Int32Array;
  readonly order: Uint32Array;
}

function dealToColumns({ chosen, columnOf, next, order }: Dealt, from: number, to: number): void {
  for (let i = from; i < to; i++) order[next[columnOf[i]]++] = chosen[i];
}

export interface Blocks {
  readonly columnStart: Int32Array;
  readonly blockStart: Int32Array;
  readonly blockBounds: Float32Array;
}

/** Columns to be cut on arrays that two threads see. Goes to the other thread as it is. */
export interface ColumnsWork {
  readonly kind: 'columns';
  readonly job: Cut;
  readonly stretches: SharedStretches;
}

/** Columns cut in one call; below a few times as many, another thread is not worth asking. */
const cutAtOnce = 4096;
const worthHelp = 8 * cutAtOnce;

/**
 * Cuts each column into blocks from low to high w (reorders `columns.order` within a column) and bounds them. `help` asks another thread
 * to cut columns as well (`helpCut`); all arrays must lie in memory that it sees.
 */
export function cutIntoBlocks(
  columns: Columns,
  t: Uint32Array,
  turned: Float32Array,
  room: Room = ownRoom,
  help?: (work: ColumnsWork) => void,
): Blocks {
  const { start, order } = columns;
  const count = start.length - 1;
  const columnStart = new Int32Array(room(4 * (count + 1)));
  for (let k = 0; k < count; k++)
    columnStart[k + 1] = columnStart[k] + Math.ceil((start[k + 1] - start[k]) / blockSize);
  const blockStart = new Int32Array(room(4 * (columnStart[count] + 1)));
  const blockBounds = new Float32Array(room(24 * columnStart[count]));
  const job: Cut = { start, order, columnStart, blockStart, blockBounds, t, turned };
  if (help && count >= worthHelp) cutTogether(job, count, help);
  else inStretches(cutColumns, job, count, cutAtOnce);
  return { columnStart, blockStart, blockBounds };
}

function cutTogether(job: Cut, count: number, help: (work: ColumnsWork) => void): void {
  const stretches = sharedStretches(count, cutAtOnce);
  help({ kind: 'columns', job, stretches });
  takeStretches(cutColumns, job, stretches);
  awaitStretches(stretches);
}

/** Cuts columns that another thread has asked help for, as long as any are left. */
export function helpCut({ job, stretches }: ColumnsWork): void {
  if (!nothingLeft(stretches)) takeStretches(cutColumns, job, stretches);
}

interface Cut extends Blocks {
  readonly start: Int32Array;
  readonly order: Uint32Array;
  readonly t: Uint32Array;
  readonly turned: Float32Array;
}

function cutColumns(job: Cut, fromColumn: number, toColumn: number): void {
  const { start, order, columnStart, blockStart, blockBounds, t, turned } = job;
  for (let k = fromColumn; k < toColumn; k++) {
    const blocks = columnStart[k + 1] - columnStart[k];
    if (blocks > 1) sortByHeight(order, start[k], start[k + 1], t, turned);
    for (let b = 0; b < blocks; b++) {
      const from = start[k] + b * blockSize;
      const to = Math.min(from + blockSize, start[k + 1]);
      blockStart[columnStart[k] + b + 1] = to;
      boundTriangles(order, from, to, t, turned, blockBounds, 6 * (columnStart[k] + b));
    }
  }
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
  inStretches(boundColumns, { ...blocks, bounds }, blocks.columnStart.length - 1);
  for (let level = 1; level < widths.length; level++)
    inStretches(
      boundRows,
      { bounds, width: widths[level - 1], upper: widths[level], from: starts[level - 1], to: starts[level] },
      heights[level - 1],
      16,
    );
  return {
    levelWidth: Int32Array.from(widths),
    levelHeight: Int32Array.from(heights),
    levelStart: Int32Array.from(starts),
    bounds,
  };
}

function boundColumns(
  { columnStart, blockBounds, bounds }: Blocks & { readonly bounds: Float32Array },
  from: number,
  to: number,
): void {
  for (let k = from; k < to; k++)
    for (let b = columnStart[k]; b < columnStart[k + 1]; b++) widen(bounds, 6 * k, blockBounds, 6 * b);
}

interface Raised {
  readonly bounds: Float32Array;
  /** Nodes across the level below and the one above, and the first of each. */
  readonly width: number;
  readonly upper: number;
  readonly from: number;
  readonly to: number;
}

function boundRows({ bounds, width, upper, from, to }: Raised, fromRow: number, toRow: number): void {
  for (let row = fromRow; row < toRow; row++)
    for (let col = 0; col < width; col++)
      widen(bounds, 6 * (to + (row >> 1) * upper + (col >> 1)), bounds, 6 * (from + row * width + col));
}

function widen(into: Float32Array, at: number, from: Float32Array, k: number): void {
  for (let i = 0; i < 3; i++) {
    if (from[k + i] < into[at + i]) into[at + i] = from[k + i];
    if (from[k + i + 3] > into[at + i + 3]) into[at + i + 3] = from[k + i + 3];
  }
}
