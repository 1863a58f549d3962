/** A point of the surface, written into by `closestOnSurface` and used again from query to query. */
export interface SurfacePoint {
  x: number;
  y: number;
  z: number;
  /** Interpolated vertex normal where the index has vertex normals, else the triangle's; unit length. */
  nx: number;
  ny: number;
  nz: number;
  distance: number;
  /** The triangle of the mesh. */
  triangle: number;
  /** The point lies on an open edge of the mesh: the surface ends here. */
  onBorder: boolean;
  /** Where the index keeps the triangle: the next query starts here, so keep one SurfacePoint per index. */
  slot: number;
}

export const newSurfacePoint = (): SurfacePoint => ({
  x: 0,
  y: 0,
  z: 0,
  nx: 0,
  ny: 0,
  nz: 0,
  distance: Number.POSITIVE_INFINITY,
  triangle: -1,
  onBorder: false,
  slot: -1,
});
