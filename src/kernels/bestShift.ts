/// <reference path="./wasm.d.ts" />
import bytes from './bestShift.wasm';
import type { MaskedPicture } from './gaussian.ts';
import { hasRoom, instantiate, type KernelMemory } from './webAssembly.ts';

interface Exports {
  readonly memory: KernelMemory;
  bestShift(count: number, dc: number, dr: number, reach: number): void;
}

/** A subject laid out in the memory of a kernel. */
export interface BestShift {
  /**
   * Best of the shifts up to `reach` columns and rows about (dc, dr) for the cells of a patch, numbers of cells of the reference, and
   * their heights: correlation (−1 where none counts), column, row, in an array that the next answer overwrites. Null where it is too
   * much for the kernel.
   */
  at(cells: Int32Array, heights: Float32Array, dc: number, dr: number, reach: number): Float64Array | null;
}

// Where things stand in the memory: the same numbers stand in assembly/bestShift.ts.
const headAt = 1024;
const outAt = 1088;
const cellsAt = 65_536;
const mostCells = 16_384;
/** Cells about the subject that are laid out without data. */
const margin = 64;

/** The subject's heights are clipped at `most`. Null where there is no WebAssembly, or no memory for it. */
export function bestShiftKernel({ width, height, z, mask }: MaskedPicture, most: number): BestShift | null {
  const kernel = instantiate<Exports>(bytes);
  const wide = width + 2 * margin;
  const high = height + 2 * margin;
  const subjectAt = cellsAt + 16 * mostCells;
  if (!kernel || !hasRoom(kernel.memory, subjectAt + 4 * (wide * high + 2))) return null;
  const { buffer } = kernel.memory;
  const subject = new Float32Array(buffer, subjectAt, wide * high + 2).fill(Number.NaN);
  for (let row = 0, i = 0; row < height; row++)
    for (let col = 0, at = (row + margin) * wide + margin; col < width; col++, at++, i++)
      if (mask[i]) subject[at] = Math.max(-most, Math.min(most, z[i]));
  new Int32Array(buffer, headAt, 2).set([wide, subjectAt]);
  const places = new Int32Array(buffer, cellsAt, 4 * mostCells);
  const values = new Float64Array(buffer, cellsAt, 2 * mostCells);
  const out = new Float64Array(buffer, outAt, 3);
  return {
    at(cells, heights, dc, dr, reach) {
      if (cells.length > mostCells) return null;
      for (let k = 0; k < cells.length; k++) {
        const col = cells[k] % width;
        const row = (cells[k] - col) / width;
        const c = col + dc;
        const r = row + dr;
        if (c - reach < -margin || r - reach < -margin) return null;
        if (c + reach >= width + margin - 1 || r + reach >= height + margin) return null;
        places[4 * k] = 4 * ((row + margin) * wide + col + margin);
        values[2 * k + 1] = heights[k];
      }
      kernel.bestShift(cells.length, dc, dr, reach);
      return out;
    },
  };
}
