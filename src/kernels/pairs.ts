/// <reference path="./wasm.d.ts" />
import bytes from './pairs.wasm';
import { hasRoom, instantiate, type KernelMemory } from './webAssembly.ts';

interface Exports {
  readonly memory: KernelMemory;
  take(count: number, insideAt: number, pointsAt: number): void;
  alongHeight(count: number): void;
  ask(count: number): void;
  answered(count: number): void;
}

/** A rotation, nine numbers, row-major, and a translation. */
interface Motion {
  readonly rotation: ArrayLike<number>;
  readonly translation: ArrayLike<number>;
}

/** What points are paired with: a relief on square cells, row-major, 1 where a pair may end, and the motion that takes its scan to it. */
export interface PairingGround {
  readonly grid: Readonly<Record<'width' | 'height' | 'pitch' | 'left' | 'top', number>> & { readonly z: Float32Array };
  readonly inside: Uint8Array;
  readonly faceFromScan: Motion;
}

/** Positions and normals, xyz. */
export interface PairingPoints {
  readonly positions: Float64Array;
  readonly normals: Float64Array;
}

/** How points come to their place, and how far from it a counterpart may lie, mm. */
export interface PairingMotion extends Motion {
  readonly scale: number;
  /** The twelve coefficients of the warp, mm, over x and y in units of `radiusMm`. */
  readonly bending: ArrayLike<number>;
  readonly radiusMm: number;
  /** −1 where normals are turned round. */
  readonly side: number;
  readonly reachMm: number;
}

/** Moved points before the warp and the pairs' normals, xyz; residuals, NaN where nothing was met. */
export type PairArrays = Readonly<Record<'moved' | 'normals' | 'residual', Float64Array<ArrayBuffer>>>;

/**
 * Answers questions, six numbers each, the place and the normal in the scan's frame, NaN where nothing is asked, by the closest place of
 * the surface and its normal, NaN where there is none.
 */
export type ClosestPlaces = (questions: Float64Array, answers: Float64Array) => void;

/** Pairs points with the relief above or below them, or, where closest places are given, with these; null where there is no memory. */
export type Pairing = (points: PairingPoints, motion: PairingMotion, closest?: ClosestPlaces) => PairArrays | null;

// Where things stand in the memory: the same numbers stand in assembly/pairs.ts.
const moveAt = 1024;
const groundAt = 1536;
const heightsAt = 2048;

/** A ground laid out in the memory of a kernel; null where there is no WebAssembly, or no memory for it. */
export function pairingKernel({ grid, inside, faceFromScan }: PairingGround): Pairing | null {
  const kernel = instantiate<Exports>(bytes);
  const { width, height, pitch, left, top, z } = grid;
  const insideAt = heightsAt + z.byteLength;
  const pointsAt = 8 * Math.ceil((insideAt + inside.length) / 8);
  if (!kernel || !hasRoom(kernel.memory, pointsAt)) return null;
  const { memory } = kernel;
  const ground = [width, height, pitch, left, top, ...rigid(faceFromScan)];
  new Float64Array(memory.buffer, groundAt, ground.length).set(ground);
  new Float32Array(memory.buffer, heightsAt, z.length).set(z);
  new Uint8Array(memory.buffer, insideAt, inside.length).set(inside);
  return ({ positions, normals }, motion, closest) => {
    const count = positions.length / 3;
    // Positions, normals; moved, their pairs' normals, residuals; questions and answers.
    if (!hasRoom(memory, pointsAt + 8 * 25 * count)) return null;
    const numbers = (first: number, each: number): Float64Array<ArrayBuffer> =>
      new Float64Array(memory.buffer, pointsAt + 8 * first * count, each * count);
    const { scale, bending, side, radiusMm, reachMm } = motion;
    const move = [scale, ...rigid(motion), ...Array.from(bending), side, radiusMm, reachMm];
    new Float64Array(memory.buffer, moveAt, move.length).set(move);
    numbers(0, 3).set(positions);
    numbers(3, 3).set(normals);
    kernel.take(count, insideAt, pointsAt);
    if (closest) {
      kernel.ask(count);
      closest(numbers(13, 6), numbers(19, 6));
      kernel.answered(count);
    } else kernel.alongHeight(count);
    return { moved: numbers(6, 3).slice(), normals: numbers(9, 3).slice(), residual: numbers(12, 1).slice() };
  };
}

const rigid = ({ rotation, translation }: Motion): number[] => [...Array.from(rotation), ...Array.from(translation)];
