import { censusOfEdges, layTriangles } from '../../../kernels/index.ts';
import { shiftFor, startsFromCounts, tableSize } from './buckets.ts';

export interface EdgeCensus {
  /** Edges between two triangles that run through it in the same direction: one of them is wound the wrong way. */
  readonly disagreeing: number;
  /** Edges at which more than two triangles meet. */
  readonly crowded: number;
}

/** What is known of an edge: nothing, one half-edge each way, two that agree, two that do not, more than two. */
const state = { none: 0, up: 1, down: 2, agreeing: 3, disagreeing: 4, crowded: 5 };

/**
 * Counts edges by how their triangles meet, without saying which: all that a sound scan needs. `name` renames
 * vertices (vertices at one place), or is null.
 *
 * By a kernel from triangles that are laid out for it, which compares the half-edges of a lower vertex with one another; plainly
 * where it cannot.
 */
export function countEdges(
  triangles: Uint32Array,
  vertexCount: number,
  name: Uint32Array | null,
  laid = layTriangles(triangles, vertexCount),
): EdgeCensus {
  const census = laid && censusOfEdges(laid, name, startsFromCounts);
  return census ?? countEdgesPlainly(triangles, vertexCount, name);
}

/**
 * The same without the kernel, whose referee this is.
 *
 * Scans often come with their vertices in random order, where every look-up in a table of all edges misses the
 * cache. The half-edges are therefore dealt into buckets by their lower vertex first, and each bucket is counted in
 * a small table. On 2 million triangles in random order this takes a fifth of the time of pairing them (edges.ts).
 */
export function countEdgesPlainly(triangles: Uint32Array, vertexCount: number, name: Uint32Array | null): EdgeCensus {
  const { starts, low, highAndWay, most } = deal(triangles, vertexCount, name);
  const slots = new Int32Array(tableSize(most));
  const states = new Uint8Array(slots.length);
  let disagreeing = 0;
  let crowded = 0;
  for (let bucket = 0; bucket + 1 < starts.length; bucket++) {
    const begin = starts[bucket];
    const end = starts[bucket + 1];
    const mask = tableSize(end - begin) - 1;
    states.fill(state.none, 0, mask + 1);
    for (let i = begin; i < end; i++) {
      const high = highAndWay[i] >>> 1;
      let slot = (Math.imul(low[i], 0x9e3779b1) ^ Math.imul(high, 0x85ebca6b)) >>> 7;
      for (slot &= mask; states[slot] !== state.none; slot = (slot + 1) & mask)
        if (low[slots[slot]] === low[i] && highAndWay[slots[slot]] >>> 1 === high) break;
      const before = states[slot];
      const after = next(before, (highAndWay[i] & 1) === 1);
      if (before === state.none) slots[slot] = i;
      if (after === state.disagreeing) disagreeing++;
      if (before === state.disagreeing) disagreeing--;
      if (after === state.crowded && before !== state.crowded) crowded++;
      states[slot] = after;
    }
  }
  return { disagreeing, crowded };
}

function next(before: number, up: boolean): number {
  if (before === state.none) return up ? state.up : state.down;
  if (before > state.down) return state.crowded;
  return (before === state.up) === up ? state.disagreeing : state.agreeing;
}

/** Half-edges by bucket: the lower vertex, and twice the higher one plus 1 where the half-edge runs up to it. */
function deal(triangles: Uint32Array, vertexCount: number, name: Uint32Array | null) {
  const shift = shiftFor(vertexCount);
  const counts = new Uint32Array((vertexCount >>> shift) + 2);
  for (let t = 0; t < triangles.length; t += 3) {
    const a = name ? name[triangles[t]] : triangles[t];
    const b = name ? name[triangles[t + 1]] : triangles[t + 1];
    const c = name ? name[triangles[t + 2]] : triangles[t + 2];
    counts[Math.min(a, b) >>> shift]++;
    counts[Math.min(b, c) >>> shift]++;
    counts[Math.min(c, a) >>> shift]++;
  }
  const most = startsFromCounts(counts);
  const starts = counts.slice();
  const low = new Uint32Array(triangles.length);
  const highAndWay = new Uint32Array(triangles.length);
  const put = (from: number, to: number) => {
    const up = from < to;
    const lower = up ? from : to;
    const place = counts[lower >>> shift]++;
    low[place] = lower;
    highAndWay[place] = up ? to * 2 + 1 : from * 2;
  };
  for (let t = 0; t < triangles.length; t += 3) {
    const a = name ? name[triangles[t]] : triangles[t];
    const b = name ? name[triangles[t + 1]] : triangles[t + 1];
    const c = name ? name[triangles[t + 2]] : triangles[t + 2];
    put(a, b);
    put(b, c);
    put(c, a);
  }
  return { starts, low, highAndWay, most };
}
