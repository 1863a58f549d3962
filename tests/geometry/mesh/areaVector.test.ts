import { describe, expect, it } from 'vitest';
import { areaVector, seededRandom } from '../../../src/core/geometry/index.ts';

describe('areaVector', () => {
  const random = seededRandom(2);
  const corner = (): number[] => [random.between(-5, 5), random.between(-5, 5), random.between(-5, 5)];
  const of = (...corners: number[][]): number[] => {
    const out = new Float64Array(3);
    areaVector(Float32Array.from(corners.flat()), Uint32Array.of(9, 0, 1, 2), 1, out);
    return [...out];
  };

  it('is twice the area along the outward normal of a triangle that is known', () => {
    expect(of([1, 1, 2], [4, 1, 2], [1, 5, 2])).toEqual([0, 0, 12]);
    expect(of([1, 1, 2], [1, 5, 2], [4, 1, 2])).toEqual([0, 0, -12]);
  });

  it('is upright to both sides, does not change with the first corner, and the four of a tetrahedron sum to nothing', () => {
    for (let round = 0; round < 20; round++) {
      const [a, b, c, d] = [corner(), corner(), corner(), corner()];
      const n = of(a, b, c);
      for (const [p, q] of [
        [a, b],
        [b, c],
      ])
        expect(n.reduce((sum, value, k) => sum + value * (q[k] - p[k]), 0)).toBeCloseTo(0, 3);
      of(b, c, a).forEach((value, k) => {
        expect(value).toBeCloseTo(n[k], 4);
      });
      const sides = [of(a, b, c), of(a, d, b), of(a, c, d), of(b, d, c)];
      for (const k of [0, 1, 2]) expect(sides.reduce((sum, side) => sum + side[k], 0)).toBeCloseTo(0, 3);
    }
  });
});
