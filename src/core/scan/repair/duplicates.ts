import { shiftFor, startsFromCounts, tableSize } from './buckets.ts';

/**
 * Drops every triangle whose three corners an earlier one has in any order, and returns how many; the triangles that
 * stay are moved to the front of `triangles`, in their order. Triangles are dealt into buckets by their lowest
 * corner, in the order of the list, and each bucket is searched in a small table (see census.ts for why).
 */
export function dropDuplicates(triangles: Uint32Array, vertexCount: number): number {
  const { starts, dealt, most } = deal(triangles, vertexCount);
  const again = new Uint8Array(triangles.length / 3);
  const slots = new Int32Array(tableSize(most));
  for (let bucket = 0; bucket + 1 < starts.length; bucket++) {
    const begin = starts[bucket];
    const end = starts[bucket + 1];
    const mask = tableSize(end - begin) - 1;
    slots.fill(-1, 0, mask + 1);
    for (let i = begin; i < end; i++) if (!remember(triangles, dealt[i], slots, mask)) again[dealt[i]] = 1;
  }
  let kept = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    if (again[t / 3]) continue;
    triangles[kept] = triangles[t];
    triangles[kept + 1] = triangles[t + 1];
    triangles[kept + 2] = triangles[t + 2];
    kept += 3;
  }
  return (triangles.length - kept) / 3;
}

/** Triangle numbers by bucket. */
function deal(triangles: Uint32Array, vertexCount: number) {
  const shift = shiftFor(vertexCount);
  const counts = new Uint32Array((vertexCount >>> shift) + 2);
  const bucketOf = (t: number) => Math.min(triangles[t], triangles[t + 1], triangles[t + 2]) >>> shift;
  for (let t = 0; t < triangles.length; t += 3) counts[bucketOf(t)]++;
  const most = startsFromCounts(counts);
  const starts = counts.slice();
  const dealt = new Uint32Array(triangles.length / 3);
  for (let t = 0; t < triangles.length; t += 3) dealt[counts[bucketOf(t)]++] = t / 3;
  return { starts, dealt, most };
}

/** False where a triangle of the same corners is in the table; else puts this one there. */
function remember(triangles: Uint32Array, triangle: number, slots: Int32Array, mask: number): boolean {
  const t = triangle * 3;
  const x = triangles[t];
  const y = triangles[t + 1];
  const z = triangles[t + 2];
  // Symmetric in the corners, so that their order does not matter.
  const h = Math.imul(x + y + z, 0x9e3779b1) ^ Math.imul((x ^ y ^ z) + 0x7f4a7c15, 0x85ebca6b);
  for (let slot = (h ^ (h >>> 15)) & mask; ; slot = (slot + 1) & mask) {
    const other = slots[slot] * 3;
    if (other < 0) {
      slots[slot] = triangle;
      return true;
    }
    if (sameCorners(x, y, z, triangles[other], triangles[other + 1], triangles[other + 2])) return false;
  }
}

/** The three corners of a triangle differ from one another, so membership each way is enough. */
function sameCorners(x: number, y: number, z: number, a: number, b: number, c: number): boolean {
  return (x === a || x === b || x === c) && (y === a || y === b || y === c) && (z === a || z === b || z === c);
}
