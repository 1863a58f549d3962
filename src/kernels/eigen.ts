/// <reference path="./wasm.d.ts" />
import bytes from './eigen.wasm';
import { type KeptKernel, type KernelMemory, kernelWithRoom, pageBytes } from './webAssembly.ts';

interface Exports {
  readonly memory: KernelMemory;
  decompose(n: number): void;
}

/** Eigenvalues, ascending, and eigenvectors as the columns of a row-major matrix. */
export interface Eigen {
  readonly values: Float64Array;
  readonly vectors: Float64Array;
}

// Where things stand in the memory: the same numbers stand in assembly/eigen.ts.
const valuesAt = 1024;
const matrixAt = 4096;
/** Rows for which there is room. */
const mostRows = 64;

const kept: KeptKernel<Exports> = { bytes, mostKept: pageBytes, kernel: null };

/** Of a symmetric matrix (n × n, finite); null where there is no WebAssembly or no room. */
export function eigenByKernel(h: Float64Array, n: number): Eigen | null {
  const kernel = n > mostRows ? null : kernelWithRoom(kept, pageBytes);
  if (!kernel) return null;
  const { buffer } = kernel.memory;
  const matrix = new Float64Array(buffer, matrixAt, n * n);
  matrix.set(h);
  kernel.decompose(n);
  const vectors = new Float64Array(n * n);
  for (let r = 0; r < n; r++) for (let c = 0; c < n; c++) vectors[r * n + c] = matrix[c * n + r];
  return { values: new Float64Array(buffer, valuesAt, n).slice(), vectors };
}
