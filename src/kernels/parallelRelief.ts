/// <reference path="./wasm.d.ts" />
import bytes from './parallelRelief.wasm';
import { hasRoom, instantiate, type KeptKernel, type KernelMemory, kernelWithRoom } from './webAssembly.ts';

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

/** Points of a closed curve, mm, their inward normals, how far each may be moved inward, mm, and curvatures, 1/mm. */
export type CurveArrays = Readonly<Record<'x' | 'y' | 'nx' | 'ny' | 'reach' | 'bend', Float64Array>>;

/** By depth: weighted heights, their weights, and how many points have data. */
export type RingSums = Readonly<Record<'sum' | 'weight' | 'count', Float64Array>>;

interface Exports {
  readonly memory: KernelMemory;
  explained(): number;
  curve(points: number, every: number): number;
  gather(relief: number, points: number, steps: number, fromMm: number, stepMm: number): void;
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
  /** Sums of a relief along so many parallels of a curve; null where there is no room for it. */
  sums(relief: number, curve: CurveArrays, steps: number, fromMm: number, stepMm: number): RingSums | null;
}

// Where things stand in the memory: the same numbers stand in assembly/parallelRelief.ts.
const askAt = 1024;
const gridsAt = 2048;
const gridBytes = 64;
const pathAt = 4096;
const pointsAt = 24_576;
const normalsAt = 40_960;
const boundsAt = 57_344;
const sumsAt = 73_728;
const weightsAt = 82_944;
const countsAt = 92_160;
const dataAt = 131_072;
/** Points of a path, points of a curve and depths that there is room for. */
const mostPath = 512;
const mostPoints = 1024;
const mostSteps = 1024;

/** Null where there is no WebAssembly, or no memory for it. */
export function parallelReliefKernel(grids: readonly ReliefArrays[]): ParallelRelief | null {
  const kernel = instantiate<Exports>(bytes);
  const end = grids.reduce((at, { z }) => at + z.byteLength, dataAt);
  if (!kernel || !hasRoom(kernel.memory, end)) return null;
  const { buffer } = kernel.memory;
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
    sums(relief, { x, y, nx, ny, reach, bend }, steps, fromMm, stepMm) {
      const n = x.length;
      if (n > mostPoints || steps > mostSteps) return null;
      layPairs(buffer, pointsAt, x, y);
      layPairs(buffer, normalsAt, nx, ny);
      layPairs(buffer, boundsAt, reach, bend);
      kernel.gather(relief, n, steps, fromMm, stepMm);
      return {
        sum: new Float64Array(buffer, sumsAt, steps).slice(),
        weight: new Float64Array(buffer, weightsAt, steps).slice(),
        count: Float64Array.from(new Int32Array(buffer, countsAt, steps)),
      };
    },
  };
}

const kept: KeptKernel<Exports> = { bytes, mostKept: dataAt, kernel: null };

/**
 * The curve through points, x, y pairs, mm, with the length between the first two; for the reach every so-manyth is looked at. Null where
 * there is no WebAssembly or no room.
 */
export function curveByKernel(points: Float64Array, every: number): (CurveArrays & { spacingMm: number }) | null {
  const n = points.length / 2;
  const kernel = n > mostPoints ? null : kernelWithRoom(kept, dataAt);
  if (!kernel) return null;
  const { buffer } = kernel.memory;
  new Float64Array(buffer, pointsAt, 2 * n).set(points);
  const spacingMm = kernel.curve(n, every);
  const [x, y] = pairsFrom(points);
  const [nx, ny] = pairsFrom(new Float64Array(buffer, normalsAt, 2 * n));
  const [reach, bend] = pairsFrom(new Float64Array(buffer, boundsAt, 2 * n));
  return { x, y, nx, ny, reach, bend, spacingMm };
}

function layPairs(buffer: ArrayBuffer, at: number, first: Float64Array, second: Float64Array): void {
  const pairs = new Float64Array(buffer, at, 2 * first.length);
  for (let i = 0; i < first.length; i++) {
    pairs[2 * i] = first[i];
    pairs[2 * i + 1] = second[i];
  }
}

function pairsFrom(pairs: Float64Array): [Float64Array, Float64Array] {
  const first = new Float64Array(pairs.length / 2);
  const second = new Float64Array(pairs.length / 2);
  for (let i = 0; i < first.length; i++) {
    first[i] = pairs[2 * i];
    second[i] = pairs[2 * i + 1];
  }
  return [first, second];
}
