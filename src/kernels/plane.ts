/// <reference path="./wasm.d.ts" />
import type { PlacedPicture } from './form.ts';
import bytes from './plane.wasm';
import { type KeptKernel, type KernelMemory, kernelWithRoom } from './webAssembly.ts';

interface Exports {
  readonly memory: KernelMemory;
  lay(width: number, height: number, left: number, top: number, pitch: number, cellsAt: number): number;
  inliers(
    cellsAt: number,
    count: number,
    a: number,
    b: number,
    c: number,
    tolerance: number,
    step: number,
    most: number,
  ): number;
  refine(cellsAt: number, count: number, a: number, b: number, c: number, reach: number): number;
}

/** z = a + b x + c y. */
export interface Plane {
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

/** The cells of a picture that have data, row after row, to look for a plane among. */
export interface PlaneCells {
  /** xyz triples, mm. */
  readonly cells: Float64Array;
  /** Of every `step`-th cell, how many lie within `tolerance` of the plane; fewer where they could not be more than `most`. */
  inliers(plane: Plane, tolerance: number, step: number, most: number): number;
  /** By least squares with Tukey's weights: none from `reach` off the last plane on. Null where the cells do not tell a plane. */
  refined(last: Plane, reach: number): Plane | null;
}

// Where things stand in the memory: the same numbers stand in assembly/plane.ts.
const planeAt = 512;
const heightsAt = 1024;

const kept: KeptKernel<Exports> = { bytes, mostKept: 16_000_000, kernel: null };

/** Good until the next picture's are asked for; null where there is no WebAssembly, or no memory for them. */
export function planeCells({ width, height, left, top, pitch, z, mask }: PlacedPicture): PlaneCells | null {
  const cellsAt = 8 * Math.ceil((heightsAt + 5 * z.length) / 8);
  const kernel = kernelWithRoom(kept, cellsAt + 24 * z.length);
  if (!kernel) return null;
  const { buffer } = kernel.memory;
  new Float32Array(buffer, heightsAt, z.length).set(z);
  new Uint8Array(buffer, heightsAt + 4 * z.length, mask.length).set(mask);
  const count = kernel.lay(width, height, left, top, pitch, cellsAt);
  const found = new Float64Array(buffer, planeAt, 3);
  return {
    cells: new Float64Array(buffer, cellsAt, 3 * count),
    inliers: ({ a, b, c }, tolerance, step, most) => kernel.inliers(cellsAt, count, a, b, c, tolerance, step, most),
    refined: ({ a, b, c }, reach) =>
      kernel.refine(cellsAt, count, a, b, c, reach) ? { a: found[0], b: found[1], c: found[2] } : null,
  };
}
