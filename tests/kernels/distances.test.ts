import { expect, it } from 'vitest';
import { distancesPlainly } from '../../src/core/geometry/grid/distanceTransform.ts';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { distancesInside } from '../../src/kernels/index.ts';

it('the kernel for distances to the outside gives the same numbers as its referee, on any shape of grid', () => {
  const random = seededRandom(3);
  for (const [width, height] of [
    [1, 1],
    [1, 40],
    [40, 1],
    [61, 47],
    [300, 210],
  ])
    for (const share of [0, 0.5, 0.97, 0.9995, 1]) {
      const region = Uint8Array.from({ length: width * height }, () => (random.next() < share ? 1 : 0));
      expect(distancesInside(region, width), `${width} × ${height}, ${share} inside`).toEqual(
        distancesPlainly(region, width),
      );
    }
});
