import type { Face } from '../../src/core/face/index.ts';
import { emptyGrid, xOf, yOf } from '../../src/core/geometry/index.ts';

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
