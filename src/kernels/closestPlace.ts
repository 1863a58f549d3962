/// <reference path="./wasm.d.ts" />
import bytes from './closestPlace.wasm';
import { instantiate, type KernelMemory, pageBytes } from './webAssembly.ts';

/** What the kernel reads of a SurfaceIndex (core/geometry/spatial/surfaceIndex.ts), whose shape this repeats. */
export interface IndexArrays {
  readonly mesh: { readonly positions: Float32Array; readonly triangles: Uint32Array };
  readonly normals?: Float32Array;
  readonly frame: Float64Array;
  readonly grids: readonly GridArrays[];
  readonly triangleOf: Uint32Array;
  readonly open: Uint8Array;
  readonly reach: number;
  readonly tie: number;
}

interface GridArrays {
  readonly left: number;
  readonly low: number;
  readonly cell: number;
  readonly reach: number;
  readonly levelWidth: Int32Array;
  readonly levelHeight: Int32Array;
  readonly levelStart: Int32Array;
  readonly bounds: Float32Array;
  readonly columnStart: Int32Array;
  readonly blockStart: Int32Array;
  readonly blockBounds: Float32Array;
}

/** An index laid out in the memory of a kernel. */
export interface ClosestPlace {
  /** Put here x, y, z, the greatest distance, the direction (three) and the least cosine, as for `closestOnSurface`. */
  readonly ask: Float64Array;
  /** Then this gives the slot of the closest place, or −1. The numbers go through the memory, lest the engine allocate each on the way. */
  closest(startSlot: number): number;
  /** After a place was found: x, y, z, its normal (three), distance, 1 where it lies on an open edge. */
  readonly out: Float64Array;
}

interface Exports extends Pick<ClosestPlace, 'closest'> {
  readonly memory: KernelMemory;
  take(...numbers: number[]): void;
  prepare(firstSlot: number, endSlot: number): void;
}

// Where things stand in the memory: the same numbers stand in assembly/closestPlace.ts.
const gridAt = 256;
const gridBytes = 256;
const askAt = 1024;
const outAt = 1152;
const dataAt = 65_536;
const mostGrids = 2;
const mostLevels = 14;
/** Of four slots: four half-spaces of four numbers each. */
const planeBytes = 256;

/** Lays an index out in a kernel of its own; null where there is no WebAssembly, or no memory for it. */
export function closestPlaceKernel(index: IndexArrays): ClosestPlace | null {
  if (index.grids.length > mostGrids || index.grids.some(({ levelWidth }) => levelWidth.length > mostLevels))
    return null;
  const kernel = instantiate<Exports>(bytes);
  if (!kernel) return null;
  try {
    layOut(kernel, index);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
  const { buffer } = kernel.memory;
  return {
    ask: new Float64Array(buffer, askAt, 8),
    closest: kernel.closest,
    out: new Float64Array(buffer, outAt, 8),
  };
}

function layOut(kernel: Exports, index: IndexArrays): void {
  const slots = index.triangleOf.length;
  const places = placesFrom(dataAt);
  const corners = places(36 * slots);
  const planes = places(planeBytes * Math.ceil(slots / 4));
  const open = places(slots);
  const ids = index.normals ? places(12 * slots) : 0;
  const normals = index.normals ? places(index.normals.byteLength) : 0;
  const grids = index.grids.map((grid) => ({
    grid,
    bounds: places(grid.bounds.byteLength + 16),
    columnStart: places(grid.columnStart.byteLength),
    blockStart: places(grid.blockStart.byteLength),
    blockBounds: places(grid.blockBounds.byteLength + 16),
  }));
  const { memory } = kernel;
  memory.grow(Math.ceil(places(0) / pageBytes) - memory.buffer.byteLength / pageBytes);
  const { buffer } = memory;
  const floats = (at: number, values: Float32Array): void => new Float32Array(buffer, at).set(values);
  const integers = (at: number, values: Int32Array): void => new Int32Array(buffer, at).set(values);
  new Float64Array(buffer).set(index.frame);
  writeSlots(
    index,
    new Float32Array(buffer, corners, 9 * slots),
    index.normals ? new Uint32Array(buffer, ids, 3 * slots) : null,
  );
  new Uint8Array(buffer, open).set(index.open);
  if (index.normals) floats(normals, index.normals);
  grids.forEach(({ grid, bounds, columnStart, blockStart, blockBounds }, k) => {
    const at = gridAt + k * gridBytes;
    new Float64Array(buffer, at).set([grid.left, grid.low, grid.cell, grid.reach]);
    integers(at + 32, Int32Array.of(grid.levelWidth.length, bounds, columnStart, blockStart, blockBounds));
    integers(at + 64, grid.levelWidth);
    integers(at + 120, grid.levelHeight);
    integers(at + 176, grid.levelStart);
    floats(bounds, grid.bounds);
    integers(columnStart, grid.columnStart);
    integers(blockStart, grid.blockStart);
    floats(blockBounds, grid.blockBounds);
  });
  kernel.take(grids.length, slots, corners, planes, open, ids, normals, index.tie, index.reach);
  for (let slot = 0; slot < slots; slot += atOnce) kernel.prepare(slot, Math.min(slots, slot + atOnce));
}

/** Slots made ready in one call, a multiple of 4. */
const atOnce = 8192;

/** Hands out stretches of memory one after the other, each beginning at a multiple of 16. */
function placesFrom(first: number): (length: number) => number {
  let next = first;
  return (length) => {
    const at = next;
    next += Math.ceil(length / 16) * 16;
    return at;
  };
}

/** Vertex numbers and corners in the order of the slots, in one pass: each triangle and vertex is far from the last in memory. */
function writeSlots({ mesh, triangleOf }: IndexArrays, corners: Float32Array, ids: Uint32Array | null): void {
  const { positions: p, triangles: t } = mesh;
  for (let slot = 0, at = 0, k = 0; slot < triangleOf.length; slot++, at += 9, k += 3) {
    const from = 3 * triangleOf[slot];
    const a = t[from];
    const b = t[from + 1];
    const c = t[from + 2];
    if (ids) {
      ids[k] = a;
      ids[k + 1] = b;
      ids[k + 2] = c;
    }
    corners[at] = p[3 * a];
    corners[at + 1] = p[3 * a + 1];
    corners[at + 2] = p[3 * a + 2];
    corners[at + 3] = p[3 * b];
    corners[at + 4] = p[3 * b + 1];
    corners[at + 5] = p[3 * b + 2];
    corners[at + 6] = p[3 * c];
    corners[at + 7] = p[3 * c + 1];
    corners[at + 8] = p[3 * c + 2];
  }
}
