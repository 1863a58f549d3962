/// <reference path="./wasm.d.ts" />
import bytes from './alignStep.wasm';
import { hasRoom, instantiate, type KernelMemory } from './webAssembly.ts';

/** The reference's cells: places, mm, values, and four slopes each. */
export interface CellArrays {
  readonly x: Float32Array;
  readonly y: Float32Array;
  readonly value: Float32Array;
  readonly slopes: Float32Array;
}

interface Exports {
  readonly memory: KernelMemory;
  take(count: number, x: number, y: number, value: number, slopes: number, seen: number, side: number): void;
  sums(): void;
}

/** Cells and a subject laid out in the memory of a kernel. */
export interface AlignStep {
  /** Put here the six numbers that take a place of the reference to cells of the subject, and the sign. */
  readonly ask: Float64Array;
  sums(): void;
  /** The 34 sums, in the order of core/fit/alignStep.ts. */
  readonly out: Float64Array;
}

// Where things stand in the memory: the same numbers stand in assembly/alignStep.ts.
const askAt = 1024;
const outAt = 1152;
const dataAt = 65_536;

/** `seen`: a square picture of side `size`, NaN where it has no data. Null where there is no WebAssembly, or no memory for it. */
export function alignStepKernel(
  { x, y, value, slopes }: CellArrays,
  seen: Float32Array,
  size: number,
): AlignStep | null {
  const kernel = instantiate<Exports>(bytes);
  // A multiple of four; what is past the last lies outside of any subject.
  const count = 4 * Math.ceil(x.length / 4);
  const [xAt, yAt, valueAt, slopesAt] = [0, 1, 2, 3].map((k) => dataAt + 4 * k * count);
  const seenAt = dataAt + 4 * 7 * count;
  // Four values more: of the last cell its right neighbour's is read as well, seen or not.
  if (!kernel || !hasRoom(kernel.memory, seenAt + 4 * (seen.length + 4))) return null;
  const { buffer } = kernel.memory;
  new Float32Array(buffer, xAt, count).fill(1e30).set(x);
  new Float32Array(buffer, yAt, count).set(y);
  new Float32Array(buffer, valueAt, count).set(value);
  const slope = new Float32Array(buffer, slopesAt, 4 * count);
  for (let k = 0; k < x.length; k++) for (let r = 0; r < 4; r++) slope[r * count + k] = slopes[4 * k + r];
  new Float32Array(buffer, seenAt, seen.length).set(seen);
  kernel.take(count, xAt, yAt, valueAt, slopesAt, seenAt, size);
  return {
    ask: new Float64Array(buffer, askAt, 7),
    sums: kernel.sums,
    out: new Float64Array(buffer, outAt, 34),
  };
}
