import { describe, expect, it } from 'vitest';
import { type HeightGrid, seededRandom } from '../../src/core/geometry/index.ts';
import { bestShift, bestShiftPlainly } from '../../src/core/judge/bestShift.ts';
import { bestShiftKernel } from '../../src/kernels/index.ts';

/** Noise a few cells wide, some of the cells without data. */
function relief(width: number, height: number, seed: number, holes: number): HeightGrid {
  const random = seededRandom(seed);
  const mask = Uint8Array.from({ length: width * height }, () => (random.between(0, 1) < holes ? 0 : 1));
  const z = Float32Array.from(mask, () => 0.1 * random.normal());
  for (let pass = 0; pass < 3; pass++) for (let i = z.length - 1; i > 0; i--) z[i] = 0.5 * (z[i] + z[i - 1]);
  return { width, height, pitch: 0.1, left: 0, top: 0, z, mask };
}

const shifted = (grid: HeightGrid, cells: number): HeightGrid => ({
  ...grid,
  z: grid.z.map((_, i) => grid.z[i - cells] ?? 0),
});

function disc({ width, mask }: HeightGrid, col: number, row: number, radius: number): Int32Array {
  const cells: number[] = [];
  for (let dr = -radius; dr <= radius; dr++)
    for (let dc = -radius; dc <= radius; dc++) {
      const i = (row + dr) * width + col + dc;
      if (dc * dc + dr * dr <= radius * radius && mask[i]) cells.push(i);
    }
  return Int32Array.from(cells);
}

describe('the kernel for the best whole shift', () => {
  it('runs here, and finds where a relief was shifted to', () => {
    const a = relief(90, 70, 1, 0);
    expect(bestShiftKernel(a, 1)?.at(disc(a, 40, 30, 6), new Float32Array(200), 0, 0, 4)).not.toBeNull();
    const cells = disc(a, 40, 30, 6);
    expect(bestShift(a, shifted(a, 2 * 90 + 3), cells, { reach: 5, clipMm: [1, 1] })).toEqual({
      dc: 3,
      dr: 2,
      inside: true,
    });
  });

  it('gives the same as its referee, over holes, edges and far places, and where nothing is seen', () => {
    for (const [seed, holes] of [
      [2, 0],
      [3, 0.2],
      [4, 0.7],
      [5, 1],
    ]) {
      const [a, b] = [relief(90, 70, seed, Math.min(0.5, holes)), relief(90, 70, seed + 10, holes)];
      for (const [col, row] of [
        [45, 35],
        [8, 8],
        [81, 60],
      ])
        for (const offset of [
          [0, 0],
          [-30, 20],
          [36, -27],
          [70, 0],
        ] as const)
          for (const reach of [3, 4]) {
            const options = { reach, clipMm: [0.07, 0.1] as const, offset };
            const cells = disc(a, col, row, 7);
            expect(bestShift(a, b, cells, options)).toEqual(bestShiftPlainly(a, b, cells, options));
          }
    }
  });
});
