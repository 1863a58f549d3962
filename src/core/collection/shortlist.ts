import { bitCount, type Turning, wordsPerFeature } from './code.ts';
import { turnedFeatures } from './features.ts';
import { angleStep, globalBytes, globalParts, mostGlobal, sizeStep, unpackFeatures } from './pack.ts';
import type { FaceIndex } from './types.ts';

/** The global forms of many faces, one after another. */
export interface GlobalTable {
  readonly count: number;
  readonly bytes: Uint8Array;
  readonly words: Uint32Array;
}

export interface Shortlisted {
  /** Place in the table. */
  readonly index: number;
  readonly score: number;
  readonly turning: Turning;
}

export const shortlistDefaults = {
  /** Of the bits that name a bucket so many may differ. */
  bucketBits: 12,
  probes: 1,
  /** Of 64 bits so many may differ. */
  mostBits: 16,
  /** Steps of the ladder of sizes (12 an octave) that two features may stand apart: 13 %, and what a step is unsure by. */
  sizeSteps: 3,
  /** Taken off the score of a face that is as full of features as a form can be, as is the query: such agree in more by chance. */
  byChance: 2,
  /** Windows of the circle of turns in which votes are counted. */
  turnBins: 24,
};

/** Throws a RangeError where the bytes are not `count` global forms. */
export function openGlobals({ count, bytes }: { count: number; bytes: Uint8Array }): GlobalTable {
  if (bytes.length !== count * globalBytes) throw new RangeError('Not the global forms of that many faces.');
  const aligned = bytes.byteOffset % 4 === 0 ? bytes : bytes.slice();
  return { count, bytes: aligned, words: new Uint32Array(aligned.buffer, aligned.byteOffset, aligned.length / 4) };
}

/**
 * The faces of a table most like the query, best first, by one pass over all of them. Every feature of a face is looked up by twelve bits of
 * its code among the query's (those within one bit of it); where 64 bits, size and way up agree, it votes for the turn
 * between the two faces. The score of a face is the fullest window of turns, less what chance gives a face of so many features.
 * Source: Hamming embedding and weak geometric consistency, Jégou, Douze and Schmid, ECCV 2008.
 */
export function shortlist(
  query: FaceIndex,
  table: GlobalTable,
  want: number,
  options = shortlistDefaults,
): Shortlisted[] {
  const { count: own, start, entry } = probeOf(query, options);
  const { mostBits, sizeSteps, bucketBits, byChance, turnBins } = options;
  const { words, bytes } = table;
  const votes = new Float64Array(2 * turnBins);
  const best = new Best(want);
  const bucketMask = (1 << bucketBits) - 1;
  for (let f = 0, at = 0, word = 0; f < table.count; f++, at += globalBytes, word += globalBytes / 4) {
    const count = Math.min(mostGlobal, words[word + 1]);
    const [firsts, seconds] = [word + globalParts.first / 4, word + globalParts.second / 4];
    let any = false;
    for (let i = 0; i < count; i++) {
      const first = words[firsts + i];
      const size = bytes[at + globalParts.size + i];
      const bucket = (first & bucketMask) | ((size >> 7) << bucketBits);
      for (let k = start[bucket]; k < start[bucket + 1]; k += entrySize) {
        const apart = (size & 127) - entry[k + 2];
        if (apart > sizeSteps || apart < -sizeSteps) continue;
        const bits = bitCount(first ^ entry[k]) + bitCount(words[seconds + i] ^ entry[k + 1]);
        if (bits > mostBits) continue;
        const turn = (bytes[at + globalParts.angle + i] - entry[k + 3]) & 255;
        votes[entry[k + 4] + ((turn * turnBins) >> 8)] += 1 + (mostBits - bits) / 10;
        any = true;
      }
    }
    if (!any) continue;
    const [score, bin] = fullest(votes, turnBins);
    votes.fill(0);
    const turning = bin < turnBins ? 'asItLies' : 'turnedOver';
    best.offer(f, score - byChance * Math.sqrt((count * own) / mostGlobal ** 2), turning);
  }
  return best.sorted();
}

/** Numbers of one entry: two words of the code, size, direction, first bin of its turning. */
const entrySize = 5;

/**
 * The query's features, as they lie and turned over, by the buckets in which they are looked for: those of bucket b stand in
 * `entry` from `start[b]` to `start[b + 1]`.
 */
function probeOf(query: FaceIndex, { bucketBits, probes, turnBins }: typeof shortlistDefaults) {
  const own = unpackFeatures(query.local);
  const count = Math.min(own.count, mostGlobal);
  const masks = flips(bucketBits, probes);
  const start = new Uint32Array((2 << bucketBits) + 1);
  const rows: { bucket: number; values: readonly number[] }[] = [];
  for (const [t, features] of [own, turnedFeatures(own, 'turnedOver')].entries())
    for (let i = 0; i < count; i++) {
      const [first, second] = [features.code[i * wordsPerFeature], features.code[i * wordsPerFeature + 1]];
      const bucket = (first & ((1 << bucketBits) - 1)) | (features.up[i] << bucketBits);
      const values = [first, second, sizeStep(features.sigma[i]), angleStep(features.angle[i]), t * turnBins];
      rows.push({ bucket, values });
      for (const mask of masks) start[(bucket ^ mask) + 1] += entrySize;
    }
  for (let b = 0; b + 1 < start.length; b++) start[b + 1] += start[b];
  const next = start.slice();
  const entry = new Int32Array(start[start.length - 1]);
  for (const { bucket, values } of rows)
    for (const mask of masks) {
      entry.set(values, next[bucket ^ mask]);
      next[bucket ^ mask] += entrySize;
    }
  return { count, start, entry };
}

/** Every mask of at most `most` of `bits` bits. */
function flips(bits: number, most: number): number[] {
  let masks = [0];
  for (let k = 0; k < most; k++)
    masks = [...new Set(masks.flatMap((mask) => [mask, ...Array.from({ length: bits }, (_, b) => mask | (1 << b))]))];
  return masks;
}

/** The fullest two neighbouring bins of either turning. */
function fullest(votes: Float64Array, turnBins: number): [number, number] {
  let [most, at] = [0, 0];
  for (let b = 0; b < votes.length; b++) {
    const base = b < turnBins ? 0 : turnBins;
    const value = votes[b] + votes[base + ((b - base + 1) % turnBins)];
    if (value > most) [most, at] = [value, b];
  }
  return [most, at];
}

/** The best few, kept without sorting all. */
class Best {
  private readonly kept: Shortlisted[] = [];
  private readonly want: number;
  private least = Number.NEGATIVE_INFINITY;

  constructor(want: number) {
    this.want = want;
  }

  offer(index: number, score: number, turning: Turning): void {
    if (score <= this.least && this.kept.length >= this.want) return;
    this.kept.push({ index, score, turning });
    if (this.kept.length >= 4 * this.want + 64) this.trim();
  }

  private trim(): void {
    this.kept.sort((a, b) => b.score - a.score || a.index - b.index);
    this.kept.length = Math.min(this.kept.length, this.want);
    if (this.kept.length === this.want) this.least = this.kept[this.want - 1].score;
  }

  sorted(): Shortlisted[] {
    this.trim();
    return this.kept.slice();
  }
}
