import { seededRandom } from '../geometry/index.ts';
import { entries } from './describe.ts';

/** Bits of a feature's code, in groups of four. */
export const bitsPerFeature = 256;
export const wordsPerFeature = bitsPerFeature / 32;

/** What may be done to a face: nothing; turned over, (x, y, z) → (−x, y, −z); seen in a mirror, (x, y, z) → (−x, y, z). */
export type Turning = 'asItLies' | 'turnedOver' | 'mirrored';

const part = (u: number, v: number, o: number): number => (4 * u + v) * 8 + o;

/**
 * Entries of a descriptor after the face is turned over, in the frame of the new direction (−angle): along the direction all runs the
 * other way, and gradients turn the other way round.
 */
const overEntry = (e: number): number => part(3 - (e >> 5), (e >> 3) & 3, (8 - (e & 7)) & 7);
/** The same seen in a mirror, direction π − angle. */
const mirrorEntry = (e: number): number => part(e >> 5, 3 - ((e >> 3) & 3), (8 - (e & 7)) & 7);

/**
 * Directions r of the projections in groups of four: r, r over, r mirrored, r both. Because both are permutations of order two that commute, the
 * code of a turned or mirrored face is the code of the face with the bits of each group exchanged: nothing need be
 * measured again.
 */
function projections(): Float32Array {
  const random = seededRandom(20_261_128);
  const rows = new Float32Array(bitsPerFeature * entries);
  for (let g = 0; g < bitsPerFeature / 4; g++)
    for (let e = 0; e < entries; e++) {
      const value = random.normal();
      const places = [e, overEntry(e), mirrorEntry(e), overEntry(mirrorEntry(e))];
      for (let k = 0; k < 4; k++) rows[(4 * g + k) * entries + places[k]] = value;
    }
  // The mean descriptor lies far from zero: what is even over all entries of one kind would decide every bit alike.
  for (let b = 0; b < bitsPerFeature; b++) {
    const row = rows.subarray(b * entries, (b + 1) * entries);
    const mean = row.reduce((sum, value) => sum + value, 0) / entries;
    for (let e = 0; e < entries; e++) row[e] -= mean;
  }
  return rows;
}

let known: Float32Array | null = null;

/**
 * Signs of random projections: the share of bits in which two codes differ is their angle over π. Written into `out` from `at`.
 * Source: Charikar, STOC 2002.
 */
export function writeCode(vector: Float32Array, out: Uint32Array, at: number): void {
  known ??= projections();
  for (let b = 0; b < bitsPerFeature; b++) {
    let sum = 0;
    for (let e = 0, i = b * entries; e < entries; e++, i++) sum += known[i] * vector[e];
    if (sum > 0) out[at + (b >> 5)] |= 1 << (b & 31);
  }
}

/** The codes of the face turned over or mirrored. */
export function turnedCode(code: Uint32Array, turning: Turning): Uint32Array {
  if (turning === 'asItLies') return code;
  const swap = turning === 'turnedOver' ? swapPairs : swapHalves;
  return code.map(swap);
}

/** Bits 0 and 1, 2 and 3 of each group change places. */
const swapPairs = (w: number): number => ((w & 0x55555555) << 1) | ((w >>> 1) & 0x55555555);
/** Bits 0 and 2, 1 and 3 of each group change places. */
const swapHalves = (w: number): number => ((w & 0x33333333) << 2) | ((w >>> 2) & 0x33333333);

/** Bits that are set in a 32-bit word. */
export function bitCount(word: number): number {
  let x = word - ((word >>> 1) & 0x55555555);
  x = (x & 0x33333333) + ((x >>> 2) & 0x33333333);
  x = (x + (x >>> 4)) & 0x0f0f0f0f;
  return Math.imul(x, 0x01010101) >>> 24;
}

/** Bits in which two codes differ. */
export function distance(a: Uint32Array, i: number, b: Uint32Array, j: number): number {
  let count = 0;
  for (let k = 0; k < wordsPerFeature; k++) count += bitCount(a[i + k] ^ b[j + k]);
  return count;
}
