import { describe, expect, it } from 'vitest';
import { gaussianMeanPlainly } from '../../src/core/geometry/grid/gaussianFilter.ts';
import { gaussianWeights } from '../../src/core/geometry/grid/gaussianRows.ts';
import { type HeightGrid, seededRandom } from '../../src/core/geometry/index.ts';
import { gaussianMean } from '../../src/kernels/index.ts';

function noise(width: number, height: number, seed: number, holes: number): HeightGrid {
  const random = seededRandom(seed);
  const mask = Uint8Array.from({ length: width * height }, () => (random.between(0, 1) < holes ? 0 : 1));
  const z = Float32Array.from(mask, () => random.between(-3, 3));
  return { width, height, pitch: 1, left: 0, top: 0, z, mask };
}

describe('the kernel for the masked Gaussian', () => {
  it('gives the same numbers as its referee, short and long, on any shape of picture', () => {
    for (const [width, height] of [
      [1, 1],
      [1, 40],
      [37, 1],
      [16, 16],
      [131, 77],
      [50, 203],
    ])
      for (const holes of [0, 0.3, 1])
        for (const sigma of [0.06, 0.5, 0.99, 1, 2.3, 18]) {
          const grid = noise(width, height, 7, holes);
          const what = `${width} × ${height}, holes ${holes}, σ ${sigma}`;
          expect(gaussianMean(grid, gaussianWeights(sigma)), what).toEqual(gaussianMeanPlainly(grid, sigma));
        }
  });

  it('leaves nothing of one picture in the next', () => {
    const small = noise(20, 30, 1, 0.1);
    const before = gaussianMean(small, gaussianWeights(3));
    gaussianMean(noise(300, 300, 2, 0), gaussianWeights(0.7));
    expect(gaussianMean(small, gaussianWeights(3))).toEqual(before);
  });

  it('leaves what it is given as it is', () => {
    const grid = noise(40, 40, 3, 0.2);
    const z = grid.z.slice();
    gaussianMean(grid, gaussianWeights(2));
    expect(grid.z).toEqual(z);
  });
});
