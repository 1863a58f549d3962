/// <reference path="./wasm.d.ts" />
import bytes from './edges.wasm';
import { hasRoom, type KeptKernel, type KernelMemory, kernelWithRoom } from './webAssembly.ts';

interface Exports {
  readonly memory: KernelMemory;
  take(trianglesAt: number, namesAt: number, countsAt: number, dealtAt: number): void;
  tally(from: number, to: number): void;
  deal(from: number, to: number): void;
  census(from: number, to: number): void;
  join(from: number, to: number): void;
  disagreeingEdges(): number;
  crowdedEdges(): number;
}

/** The triangles of a surface as they are now, laid out to be asked how they hang together. Good until others are. */
export interface LaidTriangles {
  readonly kernel: Exports;
  readonly triangles: number;
  readonly vertices: number;
  /** Where a number for each vertex stands, a number for each half-edge, and what comes behind both. */
  readonly verticesAt: number;
  readonly dealtAt: number;
  readonly namesAt: number;
}

const trianglesAt = 1024;
/** Triangles or vertices of one call. */
const atOnce = 16_384;
/** Half-edges of one vertex are compared each with each. */
const mostAtVertex = 2048;

const kept: KeptKernel<Exports> = { bytes, mostKept: 24_000_000, kernel: null };

/** Null where there is no WebAssembly, or no memory for it. */
export function layTriangles(triangles: Uint32Array, vertices: number): LaidTriangles | null {
  const verticesAt = trianglesAt + triangles.byteLength;
  const dealtAt = verticesAt + 4 * vertices;
  const namesAt = dealtAt + triangles.byteLength;
  const kernel = kernelWithRoom(kept, namesAt);
  if (!kernel) return null;
  new Uint32Array(kernel.memory.buffer, trianglesAt).set(triangles);
  return { kernel, triangles: triangles.length / 3, vertices, verticesAt, dealtAt, namesAt };
}

/** Parents of the union of the vertices of every triangle. */
export function parentsOfJoined({ kernel, triangles, vertices, verticesAt, dealtAt }: LaidTriangles): Int32Array {
  const parents = new Int32Array(kernel.memory.buffer, verticesAt, vertices);
  for (let i = 0; i < vertices; i++) parents[i] = i;
  kernel.take(trianglesAt, 0, verticesAt, dealtAt);
  byStretches(kernel.join, triangles);
  return parents.slice();
}

/**
 * Edges at which two triangles disagree and at which more than two meet, of vertices by other names where these are given; null where
 * more than `mostAtVertex` half-edges have one lower vertex, or where there is no memory for the names. `startsFromCounts` puts in
 * place of each count the sum of all before it, and gives the largest.
 */
export function censusOfEdges(
  { kernel, triangles, vertices, verticesAt, dealtAt, namesAt }: LaidTriangles,
  names: Uint32Array | null,
  startsFromCounts: (counts: Uint32Array) => number,
): { disagreeing: number; crowded: number } | null {
  if (!hasRoom(kernel.memory, namesAt + (names?.byteLength ?? 0))) return null;
  if (names) new Uint32Array(kernel.memory.buffer, namesAt).set(names);
  const counts = new Uint32Array(kernel.memory.buffer, verticesAt, vertices).fill(0);
  kernel.take(trianglesAt, names ? namesAt : 0, verticesAt, dealtAt);
  byStretches(kernel.tally, triangles);
  if (startsFromCounts(counts) > mostAtVertex) return null;
  byStretches(kernel.deal, triangles);
  byStretches(kernel.census, vertices);
  return { disagreeing: kernel.disagreeingEdges(), crowded: kernel.crowdedEdges() };
}

function byStretches(work: (from: number, to: number) => void, count: number): void {
  for (let from = 0; from < count; from += atOnce) work(from, Math.min(count, from + atOnce));
}
