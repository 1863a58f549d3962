/// <reference path="./wasm.d.ts" />
import bytes from './scatter.wasm';
import { type KeptKernel, type KernelMemory, kernelWithRoom, pageBytes } from './webAssembly.ts';

interface Exports {
  readonly memory: KernelMemory;
  take(patches: number, terms: number, ...places: number[]): void;
  round(): number;
}

/** Shifts of patches to which a smooth flow is fitted: `terms` numbers of the basis a patch, noise xx, xy, yy, shift x and y. */
export interface FlowPatches {
  readonly terms: number;
  readonly basis: Float64Array;
  readonly noise: Float64Array;
  readonly shifts: Float64Array;
}

/** The patches laid out; every array has an entry a patch, remainders two. */
export interface FlowRounds {
  /** To be set before each round. */
  readonly member: Float64Array;
  /** Predicts each patch from the others; false where that cannot be solved. */
  round(): boolean;
  /** What is left of each shift, that over its covariance, squared, and the covariance's determinant. */
  readonly left: Float64Array;
  readonly square: Float64Array;
  readonly determinant: Float64Array;
}

/** As many as the memory for the matrices holds: a flow of the third degree. */
const mostTerms = 10;

const kept: KeptKernel<Exports> = { bytes, mostKept: 8_000_000, kernel: null };

/** Good until the next patches are laid out; null where there is no WebAssembly or no memory for it, or the flow is of a higher degree. */
export function flowRounds({ terms, basis, noise, shifts }: FlowPatches): FlowRounds | null {
  const n = shifts.length / 2;
  const lengths = [basis.length, noise.length, shifts.length, n, 2 * n, n, n];
  const places = lengths.map((_, k) => pageBytes + 8 * lengths.slice(0, k).reduce((sum, length) => sum + length, 0));
  const end = pageBytes + 8 * lengths.reduce((sum, length) => sum + length, 0);
  const kernel = terms > mostTerms ? null : kernelWithRoom(kept, end);
  if (!kernel) return null;
  const { memory } = kernel;
  const [basisAt, noiseAt, shiftAt, member, left, square, determinant] = places.map(
    (at, k) => new Float64Array(memory.buffer, at, lengths[k]),
  );
  basisAt.set(basis);
  noiseAt.set(noise);
  shiftAt.set(shifts);
  kernel.take(n, terms, ...places);
  return { member, round: () => kernel.round() === 1, left, square, determinant };
}
