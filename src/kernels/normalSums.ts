/// <reference path="./wasm.d.ts" />
import bytes from './normalSums.wasm';
import { type KeptKernel, type KernelMemory, kernelWithRoom } from './webAssembly.ts';

interface Exports {
  readonly memory: KernelMemory;
  add(
    count: number,
    parameters: number,
    stride: number,
    rows: number,
    curvatures: number,
    pulls: number,
    blocks: number,
    systems: number,
  ): void;
}

/** Rows to be summed up, laid out in the memory of a kernel or beside it: good until the next are asked for. */
export interface NormalRows {
  /** Row-major, `stride` numbers to a row, of which the first are the parameters'; 0 after them. */
  readonly rows: Float64Array;
  readonly stride: number;
  /** By row: what JᵀDJ is weighted by, what Jᵀp is, and the number of its block. */
  readonly curvatures: Float64Array;
  readonly pulls: Float64Array;
  readonly blocks: Int32Array;
  /** Of one block after another: JᵀDJ, right below the diagonal alone, `stride` to a row; then Jᵀp, as long as a row. */
  sums(): Float64Array;
}

const dataAt = 1024;
const kept: KeptKernel<Exports> = { bytes, mostKept: 16_000_000, kernel: null };

/** All zeros to begin with. Null where there is no WebAssembly, or no memory for it. */
export function normalRowsKernel(count: number, parameters: number, blockCount: number): NormalRows | null {
  const stride = 2 * Math.ceil(parameters / 2);
  const systemLength = stride * (parameters + 1);
  const rowsAt = dataAt + 8 * systemLength * blockCount;
  const curvaturesAt = rowsAt + 8 * stride * count;
  const pullsAt = curvaturesAt + 8 * count;
  const blocksAt = pullsAt + 8 * count;
  const kernel = kernelWithRoom(kept, blocksAt + 4 * count);
  if (!kernel) return null;
  const { add } = kernel;
  const { buffer } = kernel.memory;
  new Uint8Array(buffer, dataAt, blocksAt + 4 * count - dataAt).fill(0);
  return {
    rows: new Float64Array(buffer, rowsAt, stride * count),
    stride,
    curvatures: new Float64Array(buffer, curvaturesAt, count),
    pulls: new Float64Array(buffer, pullsAt, count),
    blocks: new Int32Array(buffer, blocksAt, count),
    sums: () => {
      const systems = new Float64Array(buffer, dataAt, systemLength * blockCount).fill(0);
      add(count, parameters, stride, rowsAt, curvaturesAt, pullsAt, blocksAt, dataAt);
      return systems;
    },
  };
}
