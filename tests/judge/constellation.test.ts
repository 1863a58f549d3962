import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { constellationOf, isOutside } from '../../src/core/judge/constellation.ts';
import type { MeasuredPlaces } from '../../src/core/judge/measure.ts';
import type { Weighed } from '../../src/core/judge/rivals.ts';

/** Places whose remainders are drawn from their own covariance, turned by `deg`. */
function drawn(count: number, longMm: number, shortMm: number, deg: number, times = 1, spacingMm = 0) {
  const random = seededRandom(7);
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  const covariance = [
    c * c * longMm ** 2 + s * s * shortMm ** 2,
    c * s * (longMm ** 2 - shortMm ** 2),
    s * s * longMm ** 2 + c * c * shortMm ** 2,
  ] as const;
  const left = new Float64Array(2 * count);
  for (let i = 0; i < count; i++) {
    const [u, v] = [times * longMm * random.normal(), times * shortMm * random.normal()];
    left[2 * i] = c * u - s * v;
    left[2 * i + 1] = s * u + c * v;
  }
  const seen = Array.from({ length: count }, (_, i) => ({ x: i, y: 0, dx: 0, dy: 0, covariance, correlation: 0.9 }));
  const places = { seen, absent: [], found: count, spacingMm } as unknown as MeasuredPlaces;
  return constellationOf(places, { best: { left } } as unknown as Weighed);
}

describe('the ellipses of the places', () => {
  // χ² of two degrees of freedom: 95 % lie within 5.991; with errors half or twice as large 99.999 and 52.7 %.
  it.each([
    [1, 0.95, 0.01],
    [0.5, 0.99999, 0.002],
    [2, 0.527, 0.02],
  ])('hold the share that the law says of errors %s times as large', (times, share, within) => {
    const { landmarks } = drawn(6000, 0.05, 0.02, 30, times);
    const inside = landmarks.filter((one) => !isOutside(one.aloneSmooth, one, 0)).length / landmarks.length;
    expect(Math.abs(inside - share)).toBeLessThan(within);
  });

  it.each([0, 30, 75, 90, 120, 165])('lie along the direction of the greatest error, %s° from x', (deg) => {
    const { ellipse } = drawn(1, 0.05, 0.02, deg).landmarks[0];
    expect(Math.abs(Math.sin(((ellipse.deg - deg) * Math.PI) / 180))).toBeLessThan(1e-6);
    expect(ellipse.deg).toBeGreaterThanOrEqual(0);
    expect(ellipse.majorMm / ellipse.minorMm).toBeCloseTo(2.5, 6);
    expect(ellipse.majorMm).toBeCloseTo(Math.sqrt(5.991) * 0.05, 9);
  });

  it('grow by the spacing of the points alike in every direction', () => {
    const { ellipse } = drawn(1, 0.05, 0.02, 30, 1, 0.04).landmarks[0];
    const half = (sdMm: number): number => Math.sqrt(5.991 * (sdMm ** 2 + 0.04 ** 2));
    expect([ellipse.majorMm, ellipse.minorMm]).toEqual([expect.closeTo(half(0.05), 9), expect.closeTo(half(0.02), 9)]);
    expect(ellipse.deg).toBeCloseTo(30, 6);
  });

  it('count those outside, and the median of what is left', () => {
    const { outside, smoothMm, landmarks } = drawn(6001, 0.05, 0.05, 0);
    // With the local flow's variance beside their own: errors of 0.05 under a law of √(0.05² + 0.02²).
    expect(Math.abs(outside - Math.exp((-5.991 / 2) * (1 + 0.02 ** 2 / 0.05 ** 2)))).toBeLessThan(0.01);
    // Rayleigh's median is 1.1774 σ.
    expect(Math.abs(smoothMm - 1.1774 * 0.05)).toBeLessThan(0.002);
    expect(landmarks[2].dx).toBe(0);
  });
});
