import { describe, expect, it } from 'vitest';
import { erode, seededRandom } from '../../../src/core/geometry/index.ts';

/** Straight from the definition: no cell outside the region, or outside the picture, within `cells` steps. */
function bySteps(region: Uint8Array, width: number, cells: number): Uint8Array {
  const height = region.length / width;
  return region.map((_, i) => {
    const [row, col] = [Math.floor(i / width), i % width];
    for (let r = row - cells; r <= row + cells; r++)
      for (let c = col - cells; c <= col + cells; c++) {
        if (Math.abs(r - row) + Math.abs(c - col) > cells) continue;
        if (r < 0 || c < 0 || r >= height || c >= width || !region[r * width + c]) return 0;
      }
    return 1;
  });
}

const speckled = (width: number, height: number, share: number): Uint8Array => {
  const random = seededRandom(width);
  return Uint8Array.from({ length: width * height }, () => (random.next() < share ? 0 : 1));
};

describe('erode', () => {
  for (const cells of [0, 1, 2, 5])
    it(`agrees with the definition, ${cells} cells`, () => {
      const region = speckled(41, 29, 0.02);
      expect(erode(region, 41, cells)).toEqual(bySteps(region, 41, cells));
    });

  it('leaves nothing where the picture is no wider than twice the margin', () => {
    expect(erode(new Uint8Array(100).fill(1), 10, 5).some((m) => m === 1)).toBe(false);
  });

  it('does not touch its input, and two bites are one of the sum', () => {
    const region = speckled(37, 31, 0.01);
    const kept = region.slice();
    expect(erode(erode(region, 37, 2), 37, 3)).toEqual(erode(region, 37, 5));
    expect(region).toEqual(kept);
  });
});
