import {
  awaitStretches,
  nothingLeft,
  type SharedStretches,
  sharedStretches,
  takeStretches,
} from '../../../kernels/index.ts';
import { ownRoom, type Room } from '../room.ts';
import { inStretches } from '../stretches.ts';
import type { Columns } from './surfaceColumns.ts';

/** Columns of triangles in blocks, each within bounds, of a SurfaceIndex. */

const blockSize = 8;
/** Bounds are taken from turned coordinates rounded to float32: widened by this share of the coordinates' size. */
export const boundsSlack = 4e-7;

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
