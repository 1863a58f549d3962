import { margin, rows } from '../../design/index.ts';
import type { HeightGrid } from '../../geometry/index.ts';

/** Columns of a window, about a letter's width, and from one window to the next. */
const wide = 16;
const step = 2;
/** Rows of a window: the letters and two beyond on either side, read one row up or down as well. */
const high = rows + 4;
/** Share of a window that must have data. */
const leastData = 0.85;
/** Likest other windows that are kept of each; more are never asked for. */
const kept = 60;

/** How alike the places of one ring are to one another, as they stand and turned half round. */
export interface OwnLetters {
  /** Windows round the ring, one every `step` columns. */
  readonly windows: number;
  readonly step: number;
  /**
   * Σ over windows of (best q² that agrees with a facing − best that does not), in letters' heights: q is the correlation
   * with another window of the ring, as it stands or turned half round; it agrees where two that face alike are compared as they stand,
   * and two that do not with one turned. `facing`: 1 or −1 for each window; all turned over gives the same.
   */
  agreement(facing: Int8Array): number;
}

interface Likest {
  readonly other: Int32Array;
  /** 1 as they stand, −1 one turned half round. */
  readonly way: Int8Array;
  readonly worth: Float32Array;
}

/**
 * One hand cuts one letter alike wherever it stands in a legend: among letters that face one way each is found again as it stands, and
 * between arcs that face two ways turned half round. Needs no letters known beforehand, and tells arcs apart, not which of
 * them stands upright. `count`: columns of the picture in one round. The method is this project's own.
 */
export function ownLetters(picture: HeightGrid, count: number): OwnLetters {
  const windows = Math.floor(count / step);
  const asIs = Array.from({ length: windows }, (_, i) => windowAt(picture, count, i * step, 0));
  const moved = [-1, 1].map((by) => asIs.map((_, i) => windowAt(picture, count, i * step, by).values));
  const likest = likestOf(
    asIs.map(({ values }) => values),
    [asIs.map(({ values }) => values), ...moved],
  );
  const middling = [...asIs].sort((p, q) => p.amount - q.amount)[windows >> 1]?.amount || 1;
  const weight = asIs.map(({ amount }) => (Math.min(1, amount / middling) * step) / rows);
  return {
    windows,
    step,
    agreement: (facing) => weight.reduce((sum, w, i) => sum + w * leadAt(likest[i], facing, i), 0),
  };
}

/** Best worth that agrees less best that does not. */
function leadAt({ other, way, worth }: Likest, facing: Int8Array, i: number): number {
  let [agrees, not] = [-1, -1];
  for (let k = 0; k < other.length && (agrees < 0 || not < 0); k++) {
    if (facing[i] === facing[other[k]] * way[k]) {
      if (agrees < 0) agrees = worth[k];
    } else if (not < 0) not = worth[k];
  }
  return Math.max(0, agrees) - Math.max(0, not);
}

/** A window round a column, mean 0 and sum of squares 1, and its amount of relief; all 0 where much of it has no data. */
function windowAt({ width, z, mask }: HeightGrid, count: number, column: number, rowsDown: number) {
  const values = new Float32Array(high * wide);
  let [sum, n] = [0, 0];
  for (let r = 0; r < high; r++)
    for (let c = 0; c < wide; c++) {
      const col = (column + c - wide / 2 + count) % count;
      const i = (margin - 2 + r + rowsDown) * width + col;
      if (col >= width || !mask[i]) continue;
      values[r * wide + c] = z[i];
      sum += z[i];
      n++;
    }
  if (n < leastData * values.length) return { values: values.fill(0), amount: 0 };
  const mean = sum / values.length;
  let squares = 0;
  for (let k = 0; k < values.length; k++) {
    values[k] -= mean;
    squares += values[k] ** 2;
  }
  const amount = Math.sqrt(squares);
  return { values: amount > 0 ? values.map((value) => value / amount) : values, amount };
}

/** Of each window the likest others, best first; those that share columns with it are left out. */
function likestOf(windows: readonly Float32Array[], others: readonly (readonly Float32Array[])[]): Likest[] {
  const n = windows.length;
  const asIs = new Float32Array(n * n);
  const turned = new Float32Array(n * n);
  for (let i = 0; i < n; i++)
    for (let k = i + 1; k < n; k++) {
      if (Math.min(k - i, n - k + i) * step < wide) continue;
      let [up, down] = [0, 0];
      for (const each of others) {
        const [p, q] = products(windows[i], each[k]);
        up = Math.max(up, p);
        down = Math.max(down, q);
      }
      asIs[i * n + k] = asIs[k * n + i] = up;
      turned[i * n + k] = turned[k * n + i] = down;
    }
  return windows.map((_, i) => sortedLikest(asIs.subarray(i * n, (i + 1) * n), turned.subarray(i * n, (i + 1) * n)));
}

/** Σ of products with another window as it stands and turned half round. */
function products(a: Float32Array, b: Float32Array): [number, number] {
  const last = a.length - 1;
  let [up, down] = [0, 0];
  for (let k = 0; k <= last; k++) {
    up += a[k] * b[k];
    down += a[k] * b[last - k];
  }
  return [up, down];
}

function sortedLikest(asIs: Float32Array, turned: Float32Array): Likest {
  const n = asIs.length;
  const q = (k: number): number => (k < n ? asIs[k] : turned[k - n]);
  const order = Array.from({ length: 2 * n }, (_, k) => k)
    .filter((k) => q(k) > 0)
    .sort((a, b) => q(b) - q(a))
    .slice(0, kept);
  return {
    other: Int32Array.from(order, (k) => k % n),
    way: Int8Array.from(order, (k) => (k < n ? 1 : -1)),
    worth: Float32Array.from(order, (k) => q(k) ** 2),
  };
}
