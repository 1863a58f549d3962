import { expect, it } from 'vitest';
import { distanceTransform, seededRandom } from '../../../src/core/geometry/index.ts';

it('is the distance to the nearest outside cell that trying all of them gives', () => {
  for (const [seed, width, height, share] of [
    [1, 17, 11, 0.9],
    [2, 9, 23, 0.98],
    [3, 1, 5, 1],
    [4, 12, 12, 0.4],
  ]) {
    const random = seededRandom(seed);
    const region = Uint8Array.from({ length: width * height }, () => (random.next() < share ? 1 : 0));
    const found = distanceTransform(region, width);
    for (let i = 0; i < region.length; i++) {
      const [x, y] = [i % width, Math.floor(i / width)];
      let least = Number.POSITIVE_INFINITY;
      for (let row = -1; row <= height; row++)
        for (let col = -1; col <= width; col++) {
          const beyond = row < 0 || col < 0 || row === height || col === width;
          if (beyond || !region[row * width + col]) least = Math.min(least, Math.hypot(col - x, row - y));
        }
      expect(found[i], `seed ${seed}, cell ${i}`).toBeCloseTo(least, 5);
    }
  }
});
