/**
 * What a format reader hands on: coordinates and triangles as the file has them, not yet centred, checked or mended.
 */
export interface Surface {
  /** xyz triples in the file's unit. Float32 where the file holds no more than that, else float64. */
  readonly coordinates: Float32Array | Float64Array;
  /** Corner indices, three a triangle; not yet checked against the number of vertices. */
  readonly triangles: Uint32Array;
  /**
   * Faces of more than three corners, which the reader split into a fan about their first corner: pairs of
   * (first triangle, number of triangles). They are split again where the fan would fold over.
   */
  readonly polygons?: Uint32Array;
  /** True where corners are listed per triangle and equal places are to be joined (STL). */
  readonly weld?: boolean;
  /** Faces that had fewer than three corners and so became no triangle. */
  readonly skippedFaces?: number;
}
