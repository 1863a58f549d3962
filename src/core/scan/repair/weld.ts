/**
 * For every vertex the number of the first vertex at exactly the same place (equal float32 bits; −0 must be 0); its
 * own number where `alone` is set. Open addressing in a table of vertex numbers; linear in the vertices.
 */
export function firstAtSamePlace(
  positions: Float32Array,
  alone: Uint8Array | null,
): { first: Uint32Array; distinct: number } {
  const count = positions.length / 3;
  // Signed, so that the words stay plain machine integers.
  const bits = new Int32Array(positions.buffer, positions.byteOffset, positions.length);
  const first = new Uint32Array(count);
  let table = newTable(Math.max(16, count / 3));
  let distinct = 0;
  for (let vertex = 0; vertex < count; vertex++) {
    if (alone?.[vertex]) {
      first[vertex] = vertex;
      distinct++;
      continue;
    }
    if (distinct * 2 > table.length) table = rehash(table, bits);
    const mask = table.length - 1;
    const i = vertex * 3;
    const x = bits[i];
    const y = bits[i + 1];
    const z = bits[i + 2];
    for (let slot = hash(x, y, z) & mask; ; slot = (slot + 1) & mask) {
      const other = table[slot];
      if (other < 0) {
        table[slot] = vertex;
        first[vertex] = vertex;
        distinct++;
        break;
      }
      const j = other * 3;
      if (bits[j] === x && bits[j + 1] === y && bits[j + 2] === z) {
        first[vertex] = other;
        break;
      }
    }
  }
  return { first, distinct };
}

function newTable(expected: number): Int32Array {
  return new Int32Array(2 ** Math.ceil(Math.log2(expected * 2))).fill(-1);
}

function rehash(table: Int32Array, bits: Int32Array): Int32Array {
  const larger = new Int32Array(table.length * 2).fill(-1);
  const mask = larger.length - 1;
  for (const vertex of table) {
    if (vertex < 0) continue;
    let slot = hash(bits[vertex * 3], bits[vertex * 3 + 1], bits[vertex * 3 + 2]) & mask;
    while (larger[slot] >= 0) slot = (slot + 1) & mask;
    larger[slot] = vertex;
  }
  return larger;
}

/** Mixes three words; the low bits of float32 coordinates on a grid are often zero, so the high ones are folded down. */
function hash(x: number, y: number, z: number): number {
  let h =
    Math.imul(x ^ (x >>> 16), 0x7feb352d) ^
    Math.imul(y ^ (y >>> 15), 0x846ca68b) ^
    Math.imul(z ^ (z >>> 17), 0x9e3779b1);
  h ^= h >>> 15;
  h = Math.imul(h, 0x2c1b3c6d);
  return h ^ (h >>> 14);
}

/**
 * Joins vertices at the same place: the distinct ones in order of first appearance, and the triangles between them,
 * overwritten. A vertex that is not a number stays on its own.
 */
export function weld(positions: Float32Array, triangles: Uint32Array, invalid: Uint8Array | null): Welded {
  const { first, distinct } = firstAtSamePlace(positions, invalid);
  const kept = new Float32Array(distinct * 3);
  const keptInvalid = invalid && new Uint8Array(distinct);
  let used = 0;
  for (let vertex = 0; vertex < first.length; vertex++) {
    // The first at a place comes before its followers, so its entry already holds its new number.
    if (first[vertex] !== vertex) {
      first[vertex] = first[first[vertex]];
      continue;
    }
    kept[used * 3] = positions[vertex * 3];
    kept[used * 3 + 1] = positions[vertex * 3 + 1];
    kept[used * 3 + 2] = positions[vertex * 3 + 2];
    if (keptInvalid && invalid) keptInvalid[used] = invalid[vertex];
    first[vertex] = used++;
  }
  for (let i = 0; i < triangles.length; i++) triangles[i] = first[triangles[i]];
  return { positions: kept, triangles, invalid: keptInvalid, welded: first.length - distinct };
}

export interface Welded {
  readonly positions: Float32Array;
  readonly triangles: Uint32Array;
  readonly invalid: Uint8Array | null;
  /** Vertices that were joined to an earlier one. */
  readonly welded: number;
}
