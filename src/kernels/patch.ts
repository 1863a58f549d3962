/// <reference path="./wasm.d.ts" />
import type { MaskedPicture } from './gaussian.ts';
import bytes from './patch.wasm';
import { hasRoom, instantiate, type KernelMemory } from './webAssembly.ts';

interface Exports {
  readonly memory: KernelMemory;
  take(width: number, height: number): void;
  sample(count: number, col: number, row: number, turn: number): number;
  reweigh(gain: number, level: number): number;
  equations(gain: number, level: number): void;
  clipped(mostA: number, mostB: number): void;
  agreement(): void;
}

/** What the rounds of one patch are worked on with; see core/judge/patchRound.ts. */
export interface PatchArrays {
  /** The reference's heights, NaN for cells that are not seen; the subject's; weights. As many as the patch has cells. */
  readonly a: Float32Array;
  readonly b: Float32Array;
  readonly weight: Float32Array;
  /** Samples the subject about the middle (col, row) with a turn; returns how many cells are seen. */
  sample(col: number, row: number, turn: number): number;
  /** Weights about the median deviation of a − gain · b − level; returns it as σ. */
  reweigh(gain: number, level: number): number;
  /** Lower triangle of JᵀWJ row by row (15), then JᵀWr (5), in an array that the next answer overwrites. */
  equations(gain: number, level: number): Float64Array;
  /** Σ 1, a, b, ab, b² over the cells that are seen, both clipped, in the same array. */
  clipped(mostA: number, mostB: number): Float64Array;
  /** Σ 1, a, b, a², b² over the cells that are seen and Σ w, wa, wb, wa², wab, wb², in the same array. */
  agreement(): Float64Array;
}

/** A subject laid out in the memory of a kernel: hands out what a patch needs, good until the next is asked for. */
export type PatchKernel = (
  columns: ArrayLike<number>,
  rows: ArrayLike<number>,
  heights: ArrayLike<number>,
) => PatchArrays | null;

// Where things stand in the memory: the same numbers stand in assembly/patch.ts.
const outAt = 1024;
const most = 16_384;
const firstAt = 65_536;
const arrayAt = (k: number): number => firstAt + 4 * k * most;

/** Null where there is no WebAssembly, or no memory for it. */
export function patchKernel({ width, height, z, mask }: MaskedPicture): PatchKernel | null {
  const kernel = instantiate<Exports>(bytes);
  // Two values more: of the last cell its right neighbour's is read as well, seen or not.
  const end = arrayAt(9) + 4 * (z.length + 2);
  if (!kernel || !hasRoom(kernel.memory, end)) return null;
  const { buffer } = kernel.memory;
  const subject = new Float32Array(buffer, arrayAt(9), z.length);
  for (let i = 0; i < z.length; i++) subject[i] = mask[i] ? z[i] : Number.NaN;
  kernel.take(width, height);
  const array = (k: number, count: number): Float32Array => new Float32Array(buffer, arrayAt(k), count);
  const out = new Float64Array(buffer, outAt, 20);
  return (columns, rows, heights) => {
    const count = heights.length;
    if (count > most) return null;
    array(0, count).set(columns);
    array(1, count).set(rows);
    array(2, Math.min(most, count + 3))
      .fill(Number.NaN)
      .set(heights);
    return {
      a: array(3, count),
      b: array(4, count),
      weight: array(7, count),
      sample: (col, row, turn) => kernel.sample(count, col, row, turn),
      reweigh: kernel.reweigh,
      equations: (gain, level) => {
        kernel.equations(gain, level);
        return out;
      },
      clipped: (mostA, mostB) => {
        kernel.clipped(mostA, mostB);
        return out;
      },
      agreement: () => {
        kernel.agreement();
        return out;
      },
    };
  };
}
