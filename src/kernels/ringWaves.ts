/// <reference path="./wasm.d.ts" />
import bytes from './ringWaves.wasm';
import { type KeptKernel, type KernelMemory, kernelWithRoom } from './webAssembly.ts';

interface Exports {
  readonly memory: KernelMemory;
  wave(columns: number, stepC: number, stepS: number): void;
}

// Where things stand in the memory: the same numbers stand in assembly/ringWaves.ts.
const outAt = 1024;
const rowsAt = 65_536;
const mostRows = 6;

const kept: KeptKernel<Exports> = { bytes, mostKept: 8_000_000, kernel: null };

/**
 * The power |Σ z exp(2πi k c / n)|² of k waves along rows of n places, all rows together. Good until the next rows are laid out; null where
 * there is no WebAssembly or no memory for it, or where the rows are too many.
 */
export function ringWavesKernel(rows: readonly Float64Array[]): ((k: number) => number) | null {
  const columns = rows[0]?.length ?? 0;
  const kernel = rows.length > mostRows ? null : kernelWithRoom(kept, rowsAt + 8 * mostRows * columns);
  if (!kernel) return null;
  const { memory, wave } = kernel;
  const places = new Float64Array(memory.buffer, rowsAt, mostRows * columns).fill(0);
  rows.forEach((row, r) => {
    for (let c = 0; c < columns; c++) places[mostRows * c + r] = row[c];
  });
  const powers = new Float64Array(memory.buffer, outAt, mostRows);
  return (k) => {
    const turn = (2 * Math.PI * k) / columns;
    wave(columns, Math.cos(turn), Math.sin(turn));
    return powers.reduce((sum, power) => sum + power, 0);
  };
}
