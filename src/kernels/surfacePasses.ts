/// <reference path="./wasm.d.ts" />
import bytes from './surfacePasses.wasm';
import { instantiate, type KernelMemory, pageBytes } from './webAssembly.ts';

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
  count(from: number, to: number, countsAt: number): void;
  readonly turn: Pass;
  readonly spread: Pass;
  readonly draw: Pass;
  readonly sides: Pass;
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
/** Float32 numbers are counted by their leading bits, sign and all. */
const countBins = 1 << 19;

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
  if (!hasRoom(kernel, resultsAt + 4 * count)) return null;
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

/** Upper median of the squared lengths of all sides of all triangles, 0 for none; null where there is no WebAssembly. */
export function medianSquaredSide(surface: SurfaceArrays): number | null {
  const sides = surface.triangles.length;
  const ready = layOut(surface, 4 * sides + 4 * countBins);
  if (!ready) return null;
  const { kernel, resultsAt, triangles } = ready;
  const countsAt = resultsAt + 4 * sides;
  const counts = new Uint32Array(kernel.memory.buffer, countsAt, countBins).fill(0);
  byStretches(kernel.sides, triangles);
  byStretches((from, to) => kernel.count(from, to, countsAt), triangles);
  let rank = sides >> 1;
  let bin = 0;
  while (bin < countBins - 1 && rank >= counts[bin]) rank -= counts[bin++];
  const bits = new Uint32Array(kernel.memory.buffer, resultsAt, sides);
  return nearest(bits, bin, counts[bin])[rank] ?? 0;
}

/** The numbers of one bin, ascending. */
function nearest(bits: Uint32Array, bin: number, count: number): Float32Array {
  const near = new Uint32Array(count);
  for (let i = 0, n = 0; n < count; i++) if (bits[i] >>> 12 === bin) near[n++] = bits[i];
  return new Float32Array(near.buffer).sort();
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

/** Lays a surface out in the memory, with room for results behind it. */
function layOut({ positions, triangles }: SurfaceArrays, resultBytes: number) {
  const trianglesAt = dataAt + positions.byteLength;
  const there = laid?.triangles === triangles && laid.at === trianglesAt;
  // One that grew for another surface is let go.
  if (!there && kept && kept.memory.buffer.byteLength > mostKept) keep(null, null);
  const kernel = kept ?? instantiate<Exports>(bytes);
  if (!kernel) return null;
  const resultsAt = trianglesAt + triangles.byteLength;
  if (!hasRoom(kernel, resultsAt + resultBytes)) return null;
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

function hasRoom({ memory }: Exports, end: number): boolean {
  try {
    const pages = Math.ceil(end / pageBytes) - memory.buffer.byteLength / pageBytes;
    if (pages > 0) memory.grow(pages);
    return true;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}

function byStretches(work: Pass, count: number): void {
  for (let from = 0; from < count; from += atOnce) work(from, Math.min(count, from + atOnce));
}
