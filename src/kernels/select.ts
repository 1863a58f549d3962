/// <reference path="./wasm.d.ts" />
import bytes from './select.wasm';
import { instantiate, type KernelMemory, pageBytes } from './webAssembly.ts';

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
/** A kernel that had to grow beyond this is not kept, bytes. */
const mostKept = 8_000_000;

let kept: Exports | null = null;
let values = new Float64Array();

/**
 * Lays a list out without its NaN, good until the next one is; `count` is how many are left. Null where there is no WebAssembly, or no
 * memory for it.
 */
export function selectingFrom(list: ArrayLike<number>): { kernel: Selecting; count: number } | null {
  const kernel = kept ?? instantiate<Exports>(bytes);
  if (!kernel || !hasRoom(kernel, list.length)) return null;
  kept = kernel.memory.buffer.byteLength > mostKept ? null : kernel;
  values.set(list);
  return { kernel, count: kernel.keepFinite(list.length) };
}

function hasRoom({ memory }: Exports, count: number): boolean {
  try {
    const pages = Math.ceil((valuesAt + 8 * count) / pageBytes) - memory.buffer.byteLength / pageBytes;
    if (pages > 0) memory.grow(pages);
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
  if (values.buffer !== memory.buffer) values = new Float64Array(memory.buffer, valuesAt);
  return true;
}
