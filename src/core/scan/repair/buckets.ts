/** Enough that one bucket's tables stay in the processor's cache, few enough that all can be filled at once. */
const mostBuckets = 512;

/** How many low bits of a vertex number to drop for its bucket. */
export const shiftFor = (vertexCount: number): number => Math.max(0, Math.ceil(Math.log2(vertexCount / mostBuckets)));

/**
 * Where each bucket begins, from the number of entries in each: `counts` becomes the starts. Returns the largest count.
 */
export function startsFromCounts(counts: Uint32Array): number {
  let sum = 0;
  let most = 0;
  for (let bucket = 0; bucket < counts.length; bucket++) {
    const count = counts[bucket];
    counts[bucket] = sum;
    sum += count;
    if (count > most) most = count;
  }
  return most;
}

/** Size of a hash table that is at most half full with this many entries. */
export const tableSize = (entries: number): number => 2 ** Math.ceil(Math.log2(Math.max(4, entries * 2)));
