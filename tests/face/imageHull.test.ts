import { expect, it } from 'vitest';
import { imageHull, insidePolygon } from '../../src/core/face/index.ts';
import { emptyGrid } from '../../src/core/geometry/index.ts';

const outline = {
  shape: 'square',
  widthMm: 10,
  heightMm: 10,
  polygon: Float64Array.of(-5, -5, 5, -5, 5, 5, -5, 5),
  confidence: 1,
} as const;

it('holds what is broken out of an image and nothing beyond it', () => {
  const image = emptyGrid(-5, 5, -5, 5, 0.1);
  const at = (i: number): [number, number] => [(i % image.width) / 10 - 5, 5 - Math.floor(i / image.width) / 10];
  // A disc of 3 mm about (1, 0) with a wedge gone, in a square of 10 mm.
  for (let i = 0; i < image.mask.length; i++) {
    const [x, y] = [at(i)[0] - 1, at(i)[1]];
    image.mask[i] = Math.hypot(x, y) < 3 && !(x > 0 && Math.abs(y) < 0.3 * x) ? 1 : 0;
  }
  const inside = insidePolygon(image, imageHull({ image, outline }));
  for (let i = 0; i < inside.length; i++) {
    const [x, y] = at(i);
    const radius = Math.hypot(x - 1, y);
    if (radius > 3) expect(inside[i]).toBe(0);
    if (radius < 2.8) expect(inside[i]).toBe(1);
  }
});

it('is the outline where no image is left', () => {
  expect(imageHull({ image: emptyGrid(-5, 5, -5, 5, 0.1), outline })).toBe(outline.polygon);
});
