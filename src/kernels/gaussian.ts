/// <reference path="./wasm.d.ts" />
import bytes from './gaussian.wasm';
import { type KeptKernel, type KernelMemory, kernelWithRoom } from './webAssembly.ts';

interface Exports {
  readonly memory: KernelMemory;
  take(width: number, height: number, sampled: number): void;
  begin(fromCell: number, toCell: number): void;
  across(fromRow: number, toRow: number): void;
  down(fromColumn: number, toColumn: number): void;
  end(fromCell: number, toCell: number): void;
}

/** A picture, row-major, and where it has data. */
export interface MaskedPicture {
  readonly width: number;
  readonly height: number;
  readonly z: Float32Array;
  readonly mask: Uint8Array;
}

/** Either the weights of a short Gaussian from its middle outward, or p0, p1, q1, q2 of its two recursions. */
export type GaussianWeights = { readonly sampled: Float64Array } | { readonly sections: readonly number[] };

// Where things stand in the memory: the same numbers stand in assembly/gaussian.ts.
const weightsAt = 1024;
const dataAt = 65_536;
const kept: KeptKernel<Exports> = { bytes, mostKept: 16_000_000, kernel: null };

/** Mean of the heights over the cells with data, by those weights along rows and columns; null where there is no WebAssembly. */
export function gaussianMean({ width, height, z, mask }: MaskedPicture, weights: GaussianWeights): Float32Array | null {
  const longest = Math.max(width, height) + 16;
  const kernel = kernelWithRoom(kept, dataAt + 9 * z.length + 16 + 16 * longest + 2 * 16 * 4 * height);
  if (!kernel) return null;
  const { buffer } = kernel.memory;
  const sampled = 'sampled' in weights ? weights.sampled : null;
  new Float64Array(buffer, weightsAt).set(sampled ?? ('sections' in weights ? weights.sections : []));
  const heights = new Float32Array(buffer, dataAt, z.length);
  heights.set(z);
  new Uint8Array(buffer, dataAt + 8 * z.length, mask.length).set(mask);
  kernel.take(width, height, sampled ? sampled.length - 1 : -1);
  byStretches(kernel.begin, z.length, 16_384);
  byStretches(kernel.across, height, 16);
  byStretches(kernel.down, width, 16);
  byStretches(kernel.end, z.length, 16_384);
  return heights.slice();
}

function byStretches(work: (from: number, to: number) => void, count: number, atOnce: number): void {
  for (let from = 0; from < count; from += atOnce) work(from, Math.min(count, from + atOnce));
}
