import { type HeightGrid, slopeX, slopeY, xOf, yOf } from '../geometry/index.ts';

/** Points of a face with their normals, in the face frame, mm; xyz triples. */
export interface FacePoints {
  readonly positions: Float64Array;
  readonly normals: Float64Array;
}

/**
 * About `count` points spread evenly over a relief map, where a cell and its four neighbours carry data. They lie on
 * the scan's own triangles, and do not depend on the order of its vertices. The normal is (−∂z/∂x, −∂z/∂y, 1).
 */
export function facePoints(relief: HeightGrid, count: number): FacePoints {
  const { width, height, z, mask, pitch } = relief;
  const cells = mask.reduce((sum, m) => sum + m, 0);
  const step = Math.max(1, Math.round(Math.sqrt(cells / count)));
  const positions: number[] = [];
  const normals: number[] = [];
  for (let row = 1; row < height - 1; row += step)
    for (let col = 1; col < width - 1; col += step) {
      const i = row * width + col;
      if (!(mask[i] && mask[i - 1] && mask[i + 1] && mask[i - width] && mask[i + width])) continue;
      const gx = slopeX(z, i, pitch);
      const gy = slopeY(z, i, width, pitch);
      const length = Math.sqrt(gx * gx + gy * gy + 1);
      positions.push(xOf(relief, col), yOf(relief, row), z[i]);
      normals.push(-gx / length, -gy / length, 1 / length);
    }
  return { positions: Float64Array.from(positions), normals: Float64Array.from(normals) };
}
