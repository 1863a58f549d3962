/// <reference path="./wasm.d.ts" />
import bytes from './select.wasm';
import { type KeptKernel, type KernelMemory, kernelWithRoom } from './webAssembly.ts';

/** What the kernel does with a list that lies in its memory: `count` numbers without NaN. */
export interface Selecting {
  select(count: number, k: number): number;
  leastFrom(count: number, first: number): number;
  takeAway(count: number, centre: number): void;
}

interface Exports extends Selecting {
  readonly memory: KernelMemory;
  keepFinite(count: number): number;
}

// The same number stands in assembly/select.ts.
const valuesAt = 65_536;

const kept: KeptKernel<Exports> = { bytes, mostKept: 8_000_000, kernel: null };
let values = new Float64Array();

/**
 * Lays a list out without its NaN, good until the next one is; `count` is how many are left. Null where there is no WebAssembly, or no
 * memory for it.
 */
export function selectingFrom(list: ArrayLike<number>): { kernel: Selecting; count: number } | null {
  const kernel = kernelWithRoom(kept, valuesAt + 8 * list.length);
  if (!kernel) return null;
  if (values.buffer !== kernel.memory.buffer) values = new Float64Array(kernel.memory.buffer, valuesAt);
  values.set(list);
  return { kernel, count: kernel.keepFinite(list.length) };
}
