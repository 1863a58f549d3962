import { ownRoom, type Room } from '../room.ts';
import { inStretches } from '../stretches.ts';

/** Triangles in columns over a plane, of a SurfaceIndex. */

const trianglesPerColumn = 6;
const mostColumns = 4096;

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
