/// <reference path="./wasm.d.ts" />
import type { MaskedPicture } from './gaussian.ts';
import bytes from './lineField.wasm';
import { type KeptKernel, type KernelMemory, kernelWithRoom } from './webAssembly.ts';

interface Exports {
  readonly memory: KernelMemory;
  take(cells: number, from: number, to: number, at: number, grids: number): void;
  across(grids: number, step: number): void;
  along(count: number, least: number, k: number, ridgesOnly: boolean): void;
}

/** Grids on the same cells laid out in the memory of a kernel; see core/condition/marks/lines/lineField.ts. */
export interface LineFieldKernel {
  /**
   * Looks along direction k: ridges and grooves between the places (columns, rows) before and after each cell, averaged over the places of
   * `columns` and `rows`, of which `least` must count. No place lies farther off than the margin.
   */
  direction(
    k: number,
    beside: readonly [number, number],
    columns: readonly number[],
    rows: readonly number[],
    least: number,
    ridgesOnly: boolean,
  ): void;
  /** The best so far of each cell. */
  found(): { ridge: Float32Array; groove: Float32Array; ridgeAlong: Uint8Array; grooveAlong: Uint8Array };
}

// Where things stand in the memory: the same number stands in assembly/lineField.ts.
const stepsAt = 1024;
const mostSteps = 512;
const dataAt = 65_536;

const kept: KeptKernel<Exports> = { bytes, mostKept: 16_000_000, kernel: null };

/** `margin`: cells about the grids, without data. Null where there is no WebAssembly, or no memory for it. */
export function lineFieldKernel(grids: readonly MaskedPicture[], margin: number): LineFieldKernel | null {
  const { width, height } = grids[0];
  const wide = width + margin;
  // Fours of cells begin and end anywhere: a few cells more at either end.
  const first = 4 + margin + margin * wide;
  const end = first + wide * height;
  const cells = end + margin * wide + margin + 8;
  const arrays = grids.length + 7;
  const kernel = kernelWithRoom(kept, dataAt + 4 * cells * arrays);
  if (!kernel) return null;
  const { take, across, along } = kernel;
  const { buffer } = kernel.memory;
  const array = (k: number): Float32Array => new Float32Array(buffer, dataAt + 4 * cells * k, cells);
  grids.forEach((grid, g) => {
    layOut(grid, array(g), first, wide);
  });
  new Float32Array(buffer, dataAt + 4 * cells * grids.length, 7 * cells).fill(0);
  take(cells, first, end, dataAt, grids.length);
  const steps = new Int32Array(buffer, stepsAt, mostSteps);
  const taken = <Numbers extends Float32Array | Uint8Array>(from: ArrayLike<number>, out: Numbers): Numbers => {
    for (let row = 0, i = 0; row < height; row++)
      for (let col = 0, at = first + row * wide; col < width; col++, at++, i++) out[i] = from[at];
    return out;
  };
  const alongOf = (k: number): Uint8Array =>
    taken(new Int32Array(buffer, dataAt + 4 * cells * k, cells), new Uint8Array(width * height));
  const bestOf = (k: number): Float32Array => taken(array(k), new Float32Array(width * height));
  return {
    direction(k, [dc, dr], columns, rows, least, ridgesOnly) {
      across(grids.length, dr * wide + dc);
      steps.set(columns.map((c, t) => 4 * (rows[t] * wide + c)));
      along(columns.length, least, k, ridgesOnly);
    },
    found: () => ({
      ridge: bestOf(grids.length + 3),
      groove: bestOf(grids.length + 4),
      ridgeAlong: alongOf(grids.length + 5),
      grooveAlong: alongOf(grids.length + 6),
    }),
  };
}

function layOut({ width, height, z, mask }: MaskedPicture, out: Float32Array, first: number, wide: number): void {
  out.fill(Number.NaN);
  for (let row = 0, i = 0; row < height; row++)
    for (let col = 0, at = first + row * wide; col < width; col++, at++, i++) if (mask[i]) out[at] = z[i];
}
