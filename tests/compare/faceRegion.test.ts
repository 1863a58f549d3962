import { describe, expect, it } from 'vitest';
import { faceRegion, isOnFace, isOverFace } from '../../src/core/compare/faceRegion.ts';
import type { Face } from '../../src/core/face/index.ts';
import { emptyGrid, seededRandom } from '../../src/core/geometry/index.ts';

const pitch = 0.5;
const grid = emptyGrid(-5, 6, -4, 4, pitch);
const random = seededRandom(3);
for (let i = 0; i < grid.z.length; i++) {
  grid.mask[i] = random.next() < 0.6 ? 1 : 0;
  grid.z[i] = grid.mask[i] ? random.normal() : 0;
}
/** Cells whose centre lies in it: x from −4 to 5, y from −3 to 3. */
const polygon = Float64Array.of(-4.2, -3.2, 5.2, -3.2, 5.2, 3.2, -4.2, 3.2);
const face = { relief: grid, outline: { polygon } } as unknown as Face;

/** Heights of the cell and its eight neighbours that have data and lie in the outline. */
function around(col: number, row: number): number[] {
  const heights: number[] = [];
  for (let r = row - 1; r <= row + 1; r++)
    for (let c = col - 1; c <= col + 1; c++) {
      if (r < 0 || c < 0 || r >= grid.height || c >= grid.width) continue;
      const [x, y] = [grid.left + c * pitch, grid.top - r * pitch];
      if (x < -4.2 || x > 5.2 || y < -3.2 || y > 3.2 || !grid.mask[r * grid.width + c]) continue;
      heights.push(grid.z[r * grid.width + c]);
    }
  return heights;
}

describe('where the face is', () => {
  it('is between the least and greatest height of the 3 × 3 cells around, a tenth of a millimetre more', () => {
    const region = faceRegion(face);
    let [bare, seen] = [0, 0];
    for (let row = 0; row < grid.height; row++)
      for (let col = 0; col < grid.width; col++) {
        // Off the centre of the cell, but nearer to it than to any other.
        const [x, y] = [grid.left + (col + 0.3) * pitch, grid.top - (row - 0.4) * pitch];
        const heights = around(col, row);
        expect(isOverFace(region, x, y)).toBe(heights.length > 0);
        if (heights.length === 0) {
          bare++;
          expect(isOnFace(region, x, y, 0)).toBe(false);
          continue;
        }
        seen++;
        const [least, most] = [Math.min(...heights), Math.max(...heights)];
        for (const [z, on] of [
          [least - 0.099, true],
          [least - 0.101, false],
          [most + 0.099, true],
          [most + 0.101, false],
          [(least + most) / 2, true],
        ] as const)
          expect(isOnFace(region, x, y, z)).toBe(on);
      }
    expect(bare).toBeGreaterThan(50);
    expect(seen).toBeGreaterThan(200);
  });

  it('is widened by what is asked for', () => {
    const region = faceRegion(face, 0.5);
    const [col, row] = [10, 8];
    const most = Math.max(...around(col, row));
    const [x, y] = [grid.left + col * pitch, grid.top - row * pitch];
    expect(isOnFace(region, x, y, most + 0.49)).toBe(true);
    expect(isOnFace(region, x, y, most + 0.51)).toBe(false);
  });

  it('is nowhere beyond the map, on no side of it', () => {
    const full = {
      relief: { ...grid, mask: grid.mask.map(() => 1) },
      outline: { polygon: Float64Array.of(-9, -9, 9, -9, 9, 9, -9, 9) },
    } as unknown as Face;
    const region = faceRegion(full);
    const [right, bottom] = [grid.left + (grid.width - 1) * pitch, grid.top - (grid.height - 1) * pitch];
    for (const [x, y, over] of [
      [grid.left - 0.24, 0, true],
      [grid.left - 0.26, 0, false],
      [right + 0.24, 0, true],
      [right + 0.26, 0, false],
      [0, grid.top + 0.24, true],
      [0, grid.top + 0.26, false],
      [0, bottom - 0.24, true],
      [0, bottom - 0.26, false],
    ] as const)
      expect(isOverFace(region, x, y)).toBe(over);
  });
});
