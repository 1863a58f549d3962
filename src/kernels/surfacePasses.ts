/// <reference path="./wasm.d.ts" />

import { selectingFrom } from './select.ts';
import bytes from './surfacePasses.wasm';
import { hasRoom, instantiate, type KernelMemory } from './webAssembly.ts';

/** A triangle surface: xyz of its vertices, and three vertex numbers a triangle. */
export interface SurfaceArrays {
  readonly positions: Float32Array;
  readonly triangles: Uint32Array;
}

/** Square cells to draw on, row-major from the top; `left` and `top` are the middle of the first. */
export interface EmptyCells {
  readonly width: number;
  readonly height: number;
  readonly pitch: number;
  readonly left: number;
  readonly top: number;
}

/** Least and greatest x and y of what the triangles use: repeats core/face/raster.ts, whose types stand alone in the package. */
export interface ExtentXY {
  readonly xMin: number;
  readonly xMax: number;
  readonly yMin: number;
  readonly yMax: number;
}

type Pass = (from: number, to: number) => void;

interface Exports {
  readonly memory: KernelMemory;
  take(positionsAt: number, trianglesAt: number, resultsAt: number): void;
  window(columns: number, rows: number, left: number, top: number, pitch: number): void;
  near(least: number, most: number): void;
  sides(from: number, to: number, every: number): void;
  sidesBelow(): number;
  sidesListed(): number;
  readonly turn: Pass;
  readonly spread: Pass;
  readonly draw: Pass;
  readonly normals: Pass;
  readonly unit: Pass;
}

// Where things stand in the memory: the same numbers stand in assembly/surfacePasses.ts.
const turnAt = 1024;
const boxAt = 1152;
const dataAt = 65_536;
/** A kernel that had to grow beyond this is not kept for the next surface, and one beyond that not even for the next pass over the same one, bytes. */
const [mostKept, mostHeld] = [24_000_000, 160_000_000];
/** Triangles or vertices of one call. */
const atOnce = 16_384;
/** Triangles whose sides say about where the median lies, and how far from it on either side, as a share of all. */
const [sampled, about] = [4096, 0.02];

let kept: Exports | null = null;
/** The triangles that stand in the kept kernel, and where; the positions are turned in place. */
let laid: { readonly triangles: Uint32Array; readonly at: number } | null = null;

/**
 * The surface turned by `turn` (nine numbers of turn and scale, row-major, then the shift) and seen from +z: over each cell the
 * height of the highest triangle that looks toward the viewer, −∞ where there is none. `cellsOf` says on which cells, and may ask
 * for the extent of the turned surface. Null where there is no WebAssembly.
 */
export function heightsSeenFrom<Cells extends EmptyCells>(
  surface: SurfaceArrays,
  turn: readonly number[],
  cellsOf: (extent: () => ExtentXY) => Cells,
): { cells: Cells; heights: Float32Array } | null {
  const ready = layOut(surface, 0);
  if (!ready) return null;
  const { kernel, resultsAt, triangles } = ready;
  new Float64Array(kernel.memory.buffer, turnAt).set(turn);
  byStretches(kernel.turn, surface.positions.length / 3);
  const cells = cellsOf(() => extentOf(kernel, triangles));
  const count = cells.width * cells.height;
  if (!hasRoom(kernel.memory, resultsAt + 4 * count)) return null;
  const heights = new Float32Array(kernel.memory.buffer, resultsAt, count).fill(Number.NEGATIVE_INFINITY);
  kernel.window(cells.width, cells.height, cells.left, cells.top, cells.pitch);
  byStretches(kernel.draw, triangles);
  return { cells, heights: heights.slice() };
}

function extentOf(kernel: Exports, triangles: number): ExtentXY {
  const box = new Float32Array(kernel.memory.buffer, boxAt, 4);
  const far = Number.POSITIVE_INFINITY;
  box.set([far, -far, far, -far]);
  byStretches(kernel.spread, triangles);
  const [xMin, xMax, yMin, yMax] = box;
  return { xMin, xMax, yMin, yMax };
}

/**
 * Upper median of the squared lengths of all sides of all triangles, 0 for none; null where there is no WebAssembly. Some sides say about
 * where it lies; of all only those near by are listed, and it is selected from these.
 */
export function medianSquaredSide(surface: SurfaceArrays): number | null {
  const ready = layOut(surface, 4 * surface.triangles.length);
  if (!ready) return null;
  // An odd number: of two kinds of triangle that take turns both are seen.
  const some = sidesOf(ready, 2 * Math.floor(ready.triangles / sampled / 2) + 1, 0, Number.POSITIVE_INFINITY).listed;
  const near = (share: number): number => ranked(some, Math.round(share * (some.length - 1)));
  const [least, most] = [near(0.5 - about), near(0.5 + about)];
  const rank = surface.triangles.length >> 1;
  const { below, listed } = sidesOf(ready, 1, least, most);
  const isBetween = rank >= below && rank < below + listed.length;
  return isBetween ? ranked(listed, rank - below) : ranked(sidesOf(ready, 1, 0, Number.POSITIVE_INFINITY).listed, rank);
}

/** Of every so-manyth triangle the squared sides from `least` to `most`, in the kernel's memory, and how many are less. */
function sidesOf({ kernel, resultsAt, triangles }: Ready, every: number, least: number, most: number) {
  kernel.near(least, most);
  byStretches((from, to) => kernel.sides(from, to, every), triangles);
  return {
    below: kernel.sidesBelow(),
    listed: new Float32Array(kernel.memory.buffer, resultsAt, kernel.sidesListed()),
  };
}

/** Value number `rank` in ascending order, 0 where there is none. */
function ranked(values: Float32Array, rank: number): number {
  if (values.length === 0) return 0;
  const ready = selectingFrom(values);
  return ready ? ready.kernel.select(ready.count, rank) : values.slice().sort()[rank];
}

/** Area-weighted unit normals of the vertices, xyz; null where there is no WebAssembly. */
export function normalsOfVertices(surface: SurfaceArrays): Float32Array | null {
  const ready = layOut(surface, surface.positions.byteLength);
  if (!ready) return null;
  const { kernel, resultsAt, triangles } = ready;
  const normals = new Float32Array(kernel.memory.buffer, resultsAt, surface.positions.length).fill(0);
  byStretches(kernel.normals, triangles);
  byStretches(kernel.unit, surface.positions.length / 3);
  // The last pass over a surface that is read.
  if (kernel.memory.buffer.byteLength > mostKept) keep(null, null);
  return normals.slice();
}

interface Ready {
  readonly kernel: Exports;
  readonly resultsAt: number;
  readonly triangles: number;
}

/** Lays a surface out in the memory, with room for results behind it. */
function layOut({ positions, triangles }: SurfaceArrays, resultBytes: number): Ready | null {
  const trianglesAt = dataAt + positions.byteLength;
  const there = laid?.triangles === triangles && laid.at === trianglesAt;
  // One that grew for another surface is let go.
  if (!there && kept && kept.memory.buffer.byteLength > mostKept) keep(null, null);
  const kernel = kept ?? instantiate<Exports>(bytes);
  if (!kernel) return null;
  const resultsAt = trianglesAt + triangles.byteLength;
  if (!hasRoom(kernel.memory, resultsAt + resultBytes)) return null;
  const { buffer } = kernel.memory;
  new Float32Array(buffer, dataAt).set(positions);
  if (!there) new Uint32Array(buffer, trianglesAt).set(triangles);
  keep(buffer.byteLength > mostHeld ? null : kernel, { triangles, at: trianglesAt });
  kernel.take(dataAt, trianglesAt, resultsAt);
  return { kernel, resultsAt, triangles: triangles.length / 3 };
}

function keep(kernel: Exports | null, what: typeof laid): void {
  kept = kernel;
  laid = kernel && what;
}

function byStretches(work: Pass, count: number): void {
  for (let from = 0; from < count; from += atOnce) work(from, Math.min(count, from + atOnce));
}
