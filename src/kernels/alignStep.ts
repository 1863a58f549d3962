/// <reference path="./wasm.d.ts" />
import bytes from './alignStep.wasm';
import { instantiate, type KernelMemory, pageBytes } from './webAssembly.ts';

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

/** `seen`: a square picture of side `size`, NaN where it has no data. Null where there is no WebAssembly. */
export function alignStepKernel(
  { x, y, value, slopes }: CellArrays,
  seen: Float32Array,
  size: number,
): AlignStep | null {
  const kernel = instantiate<Exports>(bytes);
  if (!kernel) return null;
  const arrays = [slopes, x, y, value, seen];
  const places = [dataAt];
  for (const { byteLength } of arrays) places.push((places.at(-1) ?? 0) + 16 * Math.ceil(byteLength / 16));
  const { memory } = kernel;
  memory.grow(Math.ceil((places.at(-1) ?? 0) / pageBytes) - memory.buffer.byteLength / pageBytes);
  const { buffer } = memory;
  for (const [k, values] of arrays.entries()) new Float32Array(buffer, places[k], values.length).set(values);
  kernel.take(x.length, places[1], places[2], places[3], places[0], places[4], size);
  return {
    ask: new Float64Array(buffer, askAt, 7),
    sums: kernel.sums,
    out: new Float64Array(buffer, outAt, 34),
  };
}
