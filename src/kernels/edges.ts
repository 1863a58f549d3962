/// <reference path="./wasm.d.ts" />
import bytes from './edges.wasm';
import { hasRoom, type KeptKernel, type KernelMemory, kernelWithRoom } from './webAssembly.ts';

interface Exports {
  readonly memory: KernelMemory;
  take(...numbers: number[]): void;
  tally(from: number, to: number): void;
  deal(from: number, to: number): void;
  census(begin: number, end: number, mask: number): void;
  join(from: number, to: number): void;
  disagreeingEdges(): number;
  crowdedEdges(): number;
}

/** How the caller deals half-edges into buckets: see core/scan/repair/buckets.ts. */
export interface Buckets {
  readonly shift: number;
  /** Turns counts into starts and returns the largest count. */
  readonly startsFromCounts: (counts: Uint32Array) => number;
  readonly tableSize: (entries: number) => number;
}

const dataAt = 1024;
/** Triangles of one call. */
const atOnce = 16_384;

const kept: KeptKernel<Exports> = { bytes, mostKept: 24_000_000, kernel: null };

/** Edges at which two triangles disagree and at which more than two meet; null where there is no WebAssembly. */
export function censusOfEdges(
  triangles: Uint32Array,
  vertexCount: number,
  names: Uint32Array | null,
  { shift, startsFromCounts, tableSize }: Buckets,
): { disagreeing: number; crowded: number } | null {
  const trianglesAt = dataAt;
  const namesAt = trianglesAt + triangles.byteLength;
  const countsAt = namesAt + (names?.byteLength ?? 0);
  const buckets = (vertexCount >>> shift) + 2;
  const dealtAt = 16 * Math.ceil((countsAt + 4 * buckets) / 16);
  const tablesAt = dealtAt + 8 * triangles.length;
  const kernel = kernelWithRoom(kept, tablesAt);
  if (!kernel) return null;
  new Uint32Array(kernel.memory.buffer, trianglesAt).set(triangles);
  if (names) new Uint32Array(kernel.memory.buffer, namesAt).set(names);
  const counts = new Uint32Array(kernel.memory.buffer, countsAt, buckets).fill(0);
  kernel.take(trianglesAt, names ? namesAt : 0, shift, countsAt, dealtAt, 0, 0);
  byStretches(kernel.tally, triangles.length / 3);
  const most = startsFromCounts(counts);
  const starts = counts.slice();
  byStretches(kernel.deal, triangles.length / 3);
  const size = tableSize(most);
  if (!hasRoom(kernel.memory, tablesAt + 12 * size)) return null;
  kernel.take(trianglesAt, names ? namesAt : 0, shift, countsAt, dealtAt, tablesAt, tablesAt + 8 * size);
  for (let k = 0; k + 1 < starts.length; k++)
    kernel.census(starts[k], starts[k + 1], tableSize(starts[k + 1] - starts[k]) - 1);
  return { disagreeing: kernel.disagreeingEdges(), crowded: kernel.crowdedEdges() };
}

/** Parents of the union of the vertices of every triangle; null where there is no WebAssembly. */
export function parentsOfJoined(vertexCount: number, triangles: Uint32Array): Int32Array | null {
  const parentsAt = dataAt + triangles.byteLength;
  const kernel = kernelWithRoom(kept, parentsAt + 4 * vertexCount);
  if (!kernel) return null;
  new Uint32Array(kernel.memory.buffer, dataAt).set(triangles);
  const parents = new Int32Array(kernel.memory.buffer, parentsAt, vertexCount);
  for (let i = 0; i < vertexCount; i++) parents[i] = i;
  kernel.take(dataAt, 0, 0, parentsAt, 0, 0, 0);
  byStretches(kernel.join, triangles.length / 3);
  return parents.slice();
}

function byStretches(work: (from: number, to: number) => void, count: number): void {
  for (let from = 0; from < count; from += atOnce) work(from, Math.min(count, from + atOnce));
}
