import { describe, expect, it } from 'vitest';
import { fitTo, formCellsPlainly, samplingOf, withoutFormPlainly } from '../../src/core/geometry/grid/form.ts';
import { type HeightGrid, seededRandom, sigmaFromMad } from '../../src/core/geometry/index.ts';
import { formCells, withoutForm } from '../../src/kernels/index.ts';

/** A bowl with letters and holes. */
function bowl(width: number, height: number, seed: number, holes: number): HeightGrid {
  const random = seededRandom(seed);
  const mask = Uint8Array.from({ length: width * height }, () => (random.between(0, 1) < holes ? 0 : 1));
  const z = Float32Array.from(mask, (_, i) => {
    const [x, y] = [(i % width) / width, Math.floor(i / width) / height];
    return 2 * x * x - x * y + 0.3 * y + random.between(-0.05, 0.05) + (random.between(0, 1) < 0.2 ? 1 : 0);
  });
  return { width, height, pitch: 0.13, left: -4, top: 7, z, mask };
}

describe('the kernel that fits a form and takes it off', () => {
  it('gives the same numbers as its referee, planes and second order, on any shape of picture', () => {
    for (const [width, height] of [
      [1, 1],
      [1, 40],
      [2, 3],
      [61, 47],
      [117, 115],
      [300, 210],
    ])
      for (const holes of [0, 0.3, 1])
        for (const terms of [3, 6]) {
          const grid = bowl(width, height, 5, holes);
          const sampling = samplingOf(grid, 6000);
          const plain = fitTo(formCellsPlainly(grid, sampling), sampling, terms);
          const cells = formCells(grid, sampling, sigmaFromMad);
          const what = `${width} × ${height}, holes ${holes}, ${terms} terms`;
          expect(cells && fitTo(cells, sampling, terms), what).toEqual(plain);
          expect(withoutForm(grid, plain), what).toEqual(withoutFormPlainly(grid, plain));
        }
  });

  it('leaves more cells than it has room for to the referee', () => {
    expect(formCells(bowl(200, 200, 1, 0), { stride: 1, cx: 0, cy: 0, radius: 1 }, sigmaFromMad)).toBeNull();
  });
});
