import { startsFromCounts } from './buckets.ts';

/** Cells along each axis, 2⁶. */
const cellBits = 6;
const cells = 2 ** cellBits;

/** Below this many triangles everything stays in the cache anyway. */
const fewTriangles = 50_000;

/**
 * True for a large triangle list that jumps about in space: where the median step from one triangle to the next is more
 * than a twentieth of the surface's extent. Point clouds that were triangulated afterwards look like that.
 */
export function isScattered(p: Float32Array, triangles: Uint32Array): boolean {
  const count = triangles.length / 3;
  if (count < fewTriangles) return false;
  const steps = new Float64Array(1001);
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < steps.length; i++) {
    const t = Math.floor((i / steps.length) * (count - 1)) * 3;
    const a = triangles[t] * 3;
    const b = triangles[t + 3] * 3;
    steps[i] = Math.hypot(p[a] - p[b], p[a + 1] - p[b + 1], p[a + 2] - p[b + 2]);
    low = Math.min(low, p[a], p[a + 1], p[a + 2]);
    high = Math.max(high, p[a], p[a + 1], p[a + 2]);
  }
  return steps.sort()[500] > (high - low) / 20;
}

/** The same surface with its vertices and triangles in the order of their places. */
export interface SpatiallyOrdered {
  readonly positions: Float32Array;
  readonly triangles: Uint32Array;
  readonly invalid: Uint8Array | null;
  /** For each vertex here, its number in the original. */
  readonly originalOf: Uint32Array;
}

/**
 * Sorts vertices by cell of a 64³ grid and triangles by their lowest vertex, both stably and by counting. Passes over
 * triangles then find their vertices in the cache, which on 2 million scattered triangles saves more than sorting costs.
 * All corners must be vertices.
 */
export function inSpatialOrder(
  positions: Float32Array,
  triangles: Uint32Array,
  invalid: Uint8Array | null,
): SpatiallyOrdered {
  const count = positions.length / 3;
  const cellOf = cellsOf(positions);
  const originalOf = countingOrder(cellOf, cells ** 3);
  const placeOf = new Uint32Array(count);
  const sorted = new Float32Array(positions.length);
  for (let place = 0; place < count; place++) {
    const vertex = originalOf[place];
    placeOf[vertex] = place;
    sorted[place * 3] = positions[vertex * 3];
    sorted[place * 3 + 1] = positions[vertex * 3 + 1];
    sorted[place * 3 + 2] = positions[vertex * 3 + 2];
  }
  return {
    positions: sorted,
    triangles: sortTriangles(triangles, placeOf),
    invalid: invalid?.map((_, place) => invalid[originalOf[place]]) ?? null,
    originalOf,
  };
}

/** The cell of each vertex: bits of x, y and z interleaved, so that cells near one another have near numbers. */
function cellsOf(p: Float32Array): Uint32Array {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < p.length; i++) {
    if (p[i] < low) low = p[i];
    if (p[i] > high) high = p[i];
  }
  const scale = high > low ? (cells * 0.999_999) / (high - low) : 0;
  const out = new Uint32Array(p.length / 3);
  for (let vertex = 0; vertex < out.length; vertex++) {
    const x = spread[((p[vertex * 3] - low) * scale) | 0];
    const y = spread[((p[vertex * 3 + 1] - low) * scale) | 0];
    const z = spread[((p[vertex * 3 + 2] - low) * scale) | 0];
    out[vertex] = x | (y << 1) | (z << 2);
  }
  return out;
}

/** Each of 0 … 63 with two zero bits between its bits. */
const spread = Uint32Array.from({ length: cells }, (_, value) => {
  let out = 0;
  for (let bit = 0; bit < cellBits; bit++) out |= ((value >> bit) & 1) << (3 * bit);
  return out;
});

/** Item numbers in the order of their keys, equal keys in their own order. */
function countingOrder(keys: Uint32Array, keyCount: number): Uint32Array {
  const next = new Uint32Array(keyCount);
  for (let i = 0; i < keys.length; i++) next[keys[i]]++;
  startsFromCounts(next);
  const order = new Uint32Array(keys.length);
  for (let i = 0; i < keys.length; i++) order[next[keys[i]]++] = i;
  return order;
}

function sortTriangles(triangles: Uint32Array, placeOf: Uint32Array): Uint32Array {
  const renamed = new Uint32Array(triangles.length);
  for (let i = 0; i < triangles.length; i++) renamed[i] = placeOf[triangles[i]];
  const lowest = new Uint32Array(triangles.length / 3);
  // Exact order is not needed: sixteen vertices share a key.
  for (let t = 0; t < renamed.length; t += 3)
    lowest[t / 3] = Math.min(renamed[t], renamed[t + 1], renamed[t + 2]) >>> 4;
  const order = countingOrder(lowest, (placeOf.length >>> 4) + 1);
  const out = new Uint32Array(triangles.length);
  for (let i = 0; i < order.length; i++) {
    const t = order[i] * 3;
    out[i * 3] = renamed[t];
    out[i * 3 + 1] = renamed[t + 1];
    out[i * 3 + 2] = renamed[t + 2];
  }
  return out;
}
