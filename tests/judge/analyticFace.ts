import type { Face } from '../../src/core/face/index.ts';
import { emptyGrid, seededRandom, xOf, yOf } from '../../src/core/geometry/index.ts';

/** A face of 20 mm: heights where `has` says so; image, outline's size and noise alone. */
export function analyticFace(
  height: (x: number, y: number) => number,
  has: (x: number, y: number) => boolean,
  { noiseMm = 0, pitch = 0.1 } = {},
): Face {
  const image = emptyGrid(-12, 12, -12, 12, pitch);
  for (let i = 0; i < image.z.length; i++) {
    const [x, y] = [xOf(image, i % image.width), yOf(image, Math.floor(i / image.width))];
    if (!has(x, y)) continue;
    image.mask[i] = 1;
    image.z[i] = height(x, y);
  }
  return { image, noiseMm, outline: { widthMm: 20, heightMm: 20 } } as unknown as Face;
}

export const disc =
  (radiusMm = 10) =>
  (x: number, y: number): boolean =>
    Math.hypot(x, y) < radiusMm;

/** A relief without structure, 120 waves of 0.5 to 2 mm in all directions: chance agrees with it as with independent cells. */
export function waves(seed: number): (x: number, y: number) => number {
  const random = seededRandom(seed);
  const each = Array.from({ length: 120 }, () => {
    const [turn, k] = [random.between(0, 2 * Math.PI), (2 * Math.PI) / random.between(0.5, 2)];
    return [k * Math.cos(turn), k * Math.sin(turn), random.between(0, 2 * Math.PI)] as const;
  });
  return (x, y) => 0.01 * each.reduce((sum, [u, v, phase]) => sum + Math.cos(u * x + v * y + phase), 0);
}

/** A ring with its hole out of the middle and a gap towards −x, which some tools leave. */
export const ringWithGap =
  (holeMm: number) =>
  (x: number, y: number): boolean =>
    Math.hypot(x, y) < 10 && Math.hypot(x - 1.2, y) > holeMm && Math.abs(Math.atan2(y, x)) < 2.9;
