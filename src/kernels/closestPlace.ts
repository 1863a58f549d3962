/// <reference path="./wasm.d.ts" />
import bytes from './closestPlace.wasm';
import sharedBytes from './closestPlaceShared.wasm';
import {
  awaitStretches,
  nothingLeft,
  type SharedStretches,
  sharedStretches,
  takeStretches,
} from './sharedStretches.ts';
import { instantiate, type KernelMemory, pageBytes, sharedMemory } from './webAssembly.ts';

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
  /** What one other thread needs to ask the same index at the same time; null where memory is not shared. */
  readonly shared: SharedPlaces | null;
}

/** An index laid out in memory that threads share. Goes to another thread as it is. */
export interface SharedPlaces {
  readonly memory: object;
  /** What `take` was told. */
  readonly numbers: readonly number[];
}

interface Exports extends Pick<ClosestPlace, 'closest'> {
  readonly memory: KernelMemory;
  take(...numbers: number[]): void;
  prepare(firstSlot: number, endSlot: number): void;
}

/** Slots to be laid out in a memory that two threads see; the arrays must lie in such memory too. Goes to the other thread as it is. */
export interface SlotsWork extends SharedPlaces {
  readonly kind: 'slots';
  readonly surface: Surface;
  readonly stretches: SharedStretches;
}

interface Surface {
  readonly triangles: Uint32Array;
  readonly triangleOf: Uint32Array;
}

// Where things stand in the memory: the same numbers stand in assembly/closestPlace.ts.
const gridAt = 256;
const gridBytes = 256;
const askAt = 1024;
const outAt = 1152;
const sizeAt = 1216;
/** Question, answer and stacks of the second thread stand this much farther. */
const secondAt = 16_384;
const dataAt = 65_536;
const mostGrids = 2;
const mostLevels = 14;
/** Of four slots: four half-spaces of four numbers each. */
const planeBytes = 256;

/**
 * Lays an index out in a kernel of its own, in memory that another thread may share where there is such; null where there is no
 * WebAssembly, or no memory for it. `help` asks another thread to lay slots out as well (`helpLayOut`).
 */
export function closestPlaceKernel(index: IndexArrays, help?: (work: SlotsWork) => void): ClosestPlace | null {
  if (index.grids.length > mostGrids || index.grids.some(({ levelWidth }) => levelWidth.length > mostLevels))
    return null;
  try {
    const layout = layoutOf(index);
    const memory = sharedBytes.length > 0 ? sharedMemory(layout.end) : null;
    const kernel = memory ? instantiate<Exports>(sharedBytes, memory) : instantiate<Exports>(bytes);
    if (!kernel) return null;
    const own = memory ?? kernel.memory;
    if (!memory) own.grow(Math.ceil(layout.end / pageBytes) - own.buffer.byteLength / pageBytes);
    const numbers = layOut(kernel, own, index, layout, memory ? help : undefined);
    const size = Math.max(...[0, secondAt].map((at) => new Float64Array(own.buffer, at + sizeAt, 1)[0]));
    kernel.take(...numbers, 0, size);
    return asked(kernel, own.buffer, 0, memory && { memory, numbers: [...numbers, secondAt, size] });
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** The same index, asked by a second thread; null where that one may not. */
export function closestPlaceOn({ memory, numbers }: SharedPlaces): ClosestPlace | null {
  const kernel = instantiate<Exports>(sharedBytes, memory as KernelMemory);
  kernel?.take(...numbers);
  return kernel && asked(kernel, (memory as KernelMemory).buffer, secondAt, null);
}

const asked = (kernel: Exports, buffer: ArrayBuffer, own: number, shared: SharedPlaces | null): ClosestPlace => ({
  ask: new Float64Array(buffer, own + askAt, 8),
  closest: kernel.closest,
  out: new Float64Array(buffer, own + outAt, 8),
  shared,
});

/** Where each array of an index stands in the memory, bytes. */
function layoutOf(index: IndexArrays) {
  const slots = index.triangleOf.length;
  const places = placesFrom(dataAt);
  return {
    slots,
    positions: places(index.mesh.positions.byteLength),
    planes: places(planeBytes * Math.ceil(slots / 4)),
    open: places(slots),
    ids: places(12 * slots),
    normals: index.normals ? places(index.normals.byteLength) : 0,
    grids: index.grids.map((grid) => ({
      grid,
      bounds: places(grid.bounds.byteLength + 16),
      columnStart: places(grid.columnStart.byteLength),
      blockStart: places(grid.blockStart.byteLength),
      blockBounds: places(grid.blockBounds.byteLength + 16),
    })),
    end: places(0),
  };
}

/** Writes it there and tells the kernel, in the numbers that come back. */
function layOut(
  kernel: Exports,
  memory: KernelMemory,
  index: IndexArrays,
  { slots, positions, planes, open, ids, normals, grids }: ReturnType<typeof layoutOf>,
  help?: (work: SlotsWork) => void,
): number[] {
  const { buffer } = memory;
  const numbers = [grids.length, slots, positions, planes, open, ids, normals, index.tie, index.reach];
  const floats = (at: number, values: Float32Array): void => new Float32Array(buffer, at).set(values);
  const integers = (at: number, values: Int32Array): void => new Int32Array(buffer, at).set(values);
  kernel.take(...numbers, 0, 0);
  floats(positions, index.mesh.positions);
  const surface = { triangles: index.mesh.triangles, triangleOf: index.triangleOf };
  const stretches = help && sharedStretches(slots, atOnce);
  if (help && stretches) help({ kind: 'slots', surface, memory, numbers, stretches });
  new Float64Array(buffer).set(index.frame);
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
  const job = slotsJob(kernel, buffer, surface, numbers);
  if (!stretches) for (let slot = 0; slot < slots; slot += atOnce) laySlots(job, slot, Math.min(slots, slot + atOnce));
  else {
    takeStretches(laySlots, job, stretches);
    awaitStretches(stretches);
  }
  return numbers;
}

/** Slots laid out in one call, a multiple of 4. */
const atOnce = 8192;

/** Lays slots out that another thread has asked help for, as long as any are left. */
export function helpLayOut({ memory, numbers, surface, stretches }: SlotsWork): void {
  const kernel = nothingLeft(stretches) ? null : instantiate<Exports>(sharedBytes, memory as KernelMemory);
  if (!kernel) return;
  kernel.take(...numbers, secondAt, 0);
  takeStretches(laySlots, slotsJob(kernel, (memory as KernelMemory).buffer, surface, numbers), stretches);
}

interface SlotsJob extends Surface {
  readonly kernel: Exports;
  readonly ids: Uint32Array;
}

function slotsJob(kernel: Exports, buffer: ArrayBuffer, surface: Surface, numbers: readonly number[]): SlotsJob {
  const [, slots, , , , ids] = numbers;
  return { ...surface, kernel, ids: new Uint32Array(buffer, ids, 3 * slots) };
}

/** A stretch of slots: first what stands in them, then what the kernel makes of it. By stretches an engine compiles both well. */
function laySlots(job: SlotsJob, from: number, to: number): void {
  writeSlots(job, from, to);
  job.kernel.prepare(from, to);
}

/** Hands out stretches of memory one after the other, each beginning at a multiple of 16. */
function placesFrom(first: number): (length: number) => number {
  let next = first;
  return (length) => {
    const at = next;
    next += Math.ceil(length / 16) * 16;
    return at;
  };
}

/** Vertex numbers in the order of the slots. */
function writeSlots({ triangles, triangleOf, ids }: SlotsJob, firstSlot: number, endSlot: number): void {
  for (let slot = firstSlot, k = 3 * firstSlot; slot < endSlot; slot++, k += 3) {
    const from = 3 * triangleOf[slot];
    ids[k] = triangles[from];
    ids[k + 1] = triangles[from + 1];
    ids[k + 2] = triangles[from + 2];
  }
}
