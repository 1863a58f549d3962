import { emptyGrid, type HeightGrid, xOf, yOf } from '../../src/core/geometry/index.ts';

/** A square grid about the origin, `half` to either side; data where `inside` says so and the height is a number. */
export function gridOf(
  half: number,
  pitch: number,
  height: (x: number, y: number) => number,
  inside: (x: number, y: number) => boolean = () => true,
): HeightGrid {
  const grid = emptyGrid(-half, half, -half, half, pitch);
  for (let row = 0, i = 0; row < grid.height; row++)
    for (let col = 0; col < grid.width; col++, i++) {
      const [x, y] = [xOf(grid, col), yOf(grid, row)];
      const z = inside(x, y) ? height(x, y) : Number.NaN;
      if (Number.isNaN(z)) continue;
      grid.mask[i] = 1;
      grid.z[i] = z;
    }
  return grid;
}
