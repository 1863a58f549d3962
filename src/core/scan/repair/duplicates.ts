import { isSuspect } from './edges.ts';

/**
 * Drops every triangle whose three corners an earlier one has in any order, and returns how many; the triangles that
 * stay are moved to the front of `triangles`. Only suspects of the edge pairing are looked at (see edges.ts), so that
 * a clean mesh pays nothing.
 */
export function dropDuplicates(triangles: Uint32Array, mate: Int32Array, suspects: number): number {
  const table = new Int32Array(2 ** Math.ceil(Math.log2(Math.max(8, suspects * 2)))).fill(-1);
  const mask = table.length - 1;
  let kept = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    if (isSuspect(mate, t) && !remember(triangles, t, table, mask, kept)) continue;
    // Remembered triangles are found again where they are moved to, never behind where we read.
    triangles[kept] = triangles[t];
    triangles[kept + 1] = triangles[t + 1];
    triangles[kept + 2] = triangles[t + 2];
    kept += 3;
  }
  return (triangles.length - kept) / 3;
}

/** False where the triangle at `t` is known. Else notes that it will be found at `place`. */
function remember(triangles: Uint32Array, t: number, table: Int32Array, mask: number, place: number): boolean {
  const x = triangles[t];
  const y = triangles[t + 1];
  const z = triangles[t + 2];
  // Symmetric in the corners, so that their order does not matter.
  const h = Math.imul(x + y + z, 0x9e3779b1) ^ Math.imul((x ^ y ^ z) + 0x7f4a7c15, 0x85ebca6b);
  for (let slot = (h ^ (h >>> 15)) & mask; ; slot = (slot + 1) & mask) {
    const other = table[slot];
    if (other < 0) {
      table[slot] = place;
      return true;
    }
    if (sameCorners(x, y, z, triangles[other], triangles[other + 1], triangles[other + 2])) return false;
  }
}

/** The three corners of a triangle differ from one another, so membership each way is enough. */
function sameCorners(x: number, y: number, z: number, a: number, b: number, c: number): boolean {
  const has = (v: number) => v === a || v === b || v === c;
  return has(x) && has(y) && has(z);
}
