/**
 * Central differences on a row-major grid, per mm: x to the right, y upward (rows run down). The caller answers for the
 * four neighbours of cell i.
 */
export const slopeX = (z: ArrayLike<number>, i: number, pitch: number): number => (z[i + 1] - z[i - 1]) / (2 * pitch);
export const slopeY = (z: ArrayLike<number>, i: number, width: number, pitch: number): number =>
  (z[i - width] - z[i + width]) / (2 * pitch);
