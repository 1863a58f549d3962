/// <reference path="./wasm.d.ts" />
import bytes from './parallelRelief.wasm';
import { instantiate, type KernelMemory, pageBytes } from './webAssembly.ts';

/** A relief on square cells, row-major, and where it has data. */
export interface ReliefArrays {
  readonly width: number;
  readonly height: number;
  readonly pitch: number;
  readonly left: number;
  readonly top: number;
  readonly z: Float32Array;
  readonly mask: Uint8Array;
}

interface Exports {
  readonly memory: KernelMemory;
  explained(): number;
}

/** Reliefs laid out in the memory of a kernel. */
export interface ParallelRelief {
  /**
   * Put here: number of the relief, of the path's points and of those wanted; middle x and y, cosine and sine of the turn
   * counter-clockwise, greatest depth and step, mm.
   */
  readonly ask: Float64Array;
  /** The outline before it is turned and placed: an open path, x, y pairs. */
  readonly path: Float64Array;
  /** What the relief parallel to that outline explains. */
  explained(): number;
}

// Where things stand in the memory: the same numbers stand in assembly/parallelRelief.ts.
const askAt = 1024;
const gridsAt = 2048;
const gridBytes = 64;
const pathAt = 4096;
const dataAt = 65_536;
/** Points of a path that there is room for. */
const mostPath = 512;

/** Null where there is no WebAssembly. */
export function parallelReliefKernel(grids: readonly ReliefArrays[]): ParallelRelief | null {
  const kernel = instantiate<Exports>(bytes);
  if (!kernel) return null;
  const { memory } = kernel;
  const end = grids.reduce((at, { z }) => at + z.byteLength, dataAt);
  memory.grow(Math.ceil(end / pageBytes) - memory.buffer.byteLength / pageBytes);
  const { buffer } = memory;
  let at = dataAt;
  for (const [k, { width, height, pitch, left, top, z, mask }] of grids.entries()) {
    new Float64Array(buffer, gridsAt + k * gridBytes, 6).set([at, width, height, pitch, left, top]);
    const heights = new Float32Array(buffer, at, z.length);
    for (let i = 0; i < z.length; i++) heights[i] = mask[i] ? z[i] : Number.NaN;
    at += z.byteLength;
  }
  return {
    ask: new Float64Array(buffer, askAt, 9),
    path: new Float64Array(buffer, pathAt, 2 * mostPath),
    explained: kernel.explained,
  };
}
