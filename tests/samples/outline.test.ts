import { describe, expect, it } from 'vitest';
import {
  clockwiseFromTop,
  depthInside,
  dieOutline,
  edgeDistance,
  inset,
  ringArea,
} from '../../sample-scans/generator/outline.ts';
import { shapes } from '../../sample-scans/generator/types.ts';
import { seededRandom } from '../../src/core/geometry/index.ts';

describe.each(shapes)('outline: %s', (shape) => {
  const ring = dieOutline(shape, 40, 0.7);

  it('is convex, counter-clockwise and 40 mm at its longest', () => {
    const n = ring.length / 2;
    for (let i = 0; i < n; i++) {
      const [a, b, c] = [i, (i + 1) % n, (i + 2) % n];
      const turn =
        (ring[2 * b] - ring[2 * a]) * (ring[2 * c + 1] - ring[2 * b + 1]) -
        (ring[2 * b + 1] - ring[2 * a + 1]) * (ring[2 * c] - ring[2 * b]);
      expect(turn).toBeGreaterThan(-1e-9);
    }
    const ys = ring.filter((_, i) => i % 2 === 1);
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(40, 1);
    expect(ringArea(ring)).toBeGreaterThan(0);
  });

  it('inset by 3 mm lies 3 mm inside everywhere', () => {
    const inner = inset(ring, 3);
    for (let i = 0; i < inner.length; i += 2) expect(depthInside(ring, inner[i], inner[i + 1])).toBeCloseTo(3, 6);
  });

  it('gives the same distance near the edge by walking as by trying every edge', () => {
    const random = seededRandom(5);
    const walked = edgeDistance(ring);
    for (let k = 0; k < 400; k++) {
      const x = random.between(-28, 28);
      const y = random.between(-28, 28);
      const tried = depthInside(ring, x, y);
      if (tried < 0.5) expect(walked(x, y)).toBeCloseTo(tried, 9);
      else expect(walked(x, y)).toBeGreaterThanOrEqual(tried - 1e-9);
    }
  });

  it('as a path starts straight above the centre and runs to the right', () => {
    const path = clockwiseFromTop(ring);
    expect(path.at(0).x).toBeCloseTo(0, 9);
    expect(path.at(0).y).toBeGreaterThan(0);
    expect(path.at(path.length / 4).x).toBeGreaterThan(0);
    expect(path.at(-path.length / 4).x).toBeLessThan(0);
  });
});
