/// <reference path="./wasm.d.ts" />
import bytes from './distances.wasm';
import { type KeptKernel, type KernelMemory, kernelWithRoom } from './webAssembly.ts';

interface Exports {
  readonly memory: KernelMemory;
  steps(width: number, count: number): void;
  rows(width: number, first: number, last: number, lineAt: number): void;
}

// The same number stands in assembly/distances.ts.
const cellsAt = 65_536;
/** Rows of one call: an engine compiles well what is called again. */
const atOnce = 64;

const kept: KeptKernel<Exports> = { bytes, mostKept: 16_000_000, kernel: null };

/**
 * From each cell of a region (1 = inside) to the centre of the nearest cell outside it, cells; beyond the grid is outside. Null where there
 * is no WebAssembly, or no memory for it.
 */
export function distancesInside(region: Uint8Array, width: number): Float32Array | null {
  const count = region.length;
  const lineAt = cellsAt + 8 * Math.ceil(count / 2);
  const kernel = kernelWithRoom(kept, lineAt + 20 * (width + 2));
  if (!kernel || count === 0) return null;
  const { buffer } = kernel.memory;
  new Int32Array(buffer, cellsAt, count).set(region);
  kernel.steps(width, count);
  for (let row = 0; row < count / width; row += atOnce)
    kernel.rows(width, row, Math.min(count / width, row + atOnce), lineAt);
  return new Float32Array(buffer, cellsAt, count).slice();
}
