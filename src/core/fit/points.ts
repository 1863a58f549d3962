import type { Face } from '../face/index.ts';
import { countCells, type HeightGrid, slopeX, slopeY, withHeights, xOf, yOf } from '../geometry/index.ts';

/** Points of a face with their normals, in the face frame, mm; xyz triples. */
export interface FacePoints {
  readonly positions: Float64Array;
  readonly normals: Float64Array;
}

/**
 * A face's heights, form included, where its image is: what the matrix shaped. The lip and the table of each piece are its own, and two that meet pull
 * size and warp to themselves.
 */
export const printedHeights = ({ relief, image }: Pick<Face, 'relief' | 'image'>): HeightGrid =>
  withHeights(relief, relief.z, image.mask);

/**
 * About `count` points spread evenly over a height grid, where a cell and its four neighbours carry data. They lie on
 * the scan's own triangles, and do not depend on the order of its vertices. The normal is (−∂z/∂x, −∂z/∂y, 1).
 */
export function facePoints(heights: HeightGrid, count: number): FacePoints {
  const { width, height, z, mask, pitch } = heights;
  const step = Math.max(1, Math.round(Math.sqrt(countCells(mask) / count)));
  const positions: number[] = [];
  const normals: number[] = [];
  for (let row = 1; row < height - 1; row += step)
    for (let col = 1; col < width - 1; col += step) {
      const i = row * width + col;
      if (!(mask[i] && mask[i - 1] && mask[i + 1] && mask[i - width] && mask[i + width])) continue;
      const gx = slopeX(z, i, pitch);
      const gy = slopeY(z, i, width, pitch);
      const length = Math.sqrt(gx * gx + gy * gy + 1);
      positions.push(xOf(heights, col), yOf(heights, row), z[i]);
      normals.push(-gx / length, -gy / length, 1 / length);
    }
  return { positions: Float64Array.from(positions), normals: Float64Array.from(normals) };
}
