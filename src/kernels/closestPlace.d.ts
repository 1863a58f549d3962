/** What the kernel reads of a SurfaceIndex (core/geometry/spatial/surfaceIndex.ts), whose shape this repeats. */
export interface IndexArrays {
  readonly mesh: {
    readonly triangles: Uint32Array;
  };
  readonly normals?: Float32Array;
  readonly frame: Float64Array;
  readonly grids: readonly GridArrays[];
  readonly corners: Float32Array;
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
  /** Then this gives the slot of the closest place, or −1. Numbers as arguments would each be allocated on the way. */
  closest(startSlot: number): number;
  /** After a place was found: x, y, z, its normal (three), distance, 1 where it lies on an open edge. */
  readonly out: Float64Array;
}
/** Lays an index out in a kernel of its own; null where there is no WebAssembly, or no memory for it. */
export declare function closestPlaceKernel(index: IndexArrays): ClosestPlace | null;
