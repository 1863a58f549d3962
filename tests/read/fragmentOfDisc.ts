import { emptyGrid, withHeights, xOf, yOf } from '../../src/core/geometry/index.ts';
import type { PlacedFragment } from '../../src/core/read/index.ts';

/** A disc of 20 mm, the part of it that `has` takes, at a height. */
export function fragment(
  name: string,
  has: (x: number, y: number) => boolean,
  height: number | ((x: number, y: number) => number) = 0,
): PlacedFragment {
  const grid = emptyGrid(-26, 26, -26, 26, 0.1);
  const mask = grid.mask.map((_, i) => {
    const [x, y] = [xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width))];
    return Math.hypot(x, y) <= 20 && has(x, y) ? 1 : 0;
  });
  const surface = withHeights(
    grid,
    Float32Array.from(mask, (m, i) =>
      typeof height === 'number'
        ? m * height
        : m * height(xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width))),
    ),
    mask,
  );
  return { name, surface, detail: surface, middle: [0, 0] };
}
/** Beyond a straight break through the middle, turned, `mm` away from it. */
export const side = (deg: number, mm: number) => (x: number, y: number) =>
  x * Math.cos((deg * Math.PI) / 180) + y * Math.sin((deg * Math.PI) / 180) > mm;
export const other = (deg: number, mm: number) => (x: number, y: number) => side(deg + 180, mm)(x, y);
