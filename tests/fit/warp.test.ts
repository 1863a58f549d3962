import { describe, expect, it } from 'vitest';
import { applyWarp, bend, noWarp, warpField, warpParameters } from '../../src/core/fit/warp.ts';
import { eigenSymmetric, identity, seededRandom } from '../../src/core/geometry/index.ts';

/** Even points of the unit disc. */
const disc: [number, number][] = [];
for (let u = -1; u <= 1; u += 0.1) for (let v = -1; v <= 1; v += 0.1) if (u * u + v * v <= 1) disc.push([u, v]);

/** Displacements of a small similarity: three turns, three shifts, growth; for points of the plane z = 0. */
const motions = ([u, v]: [number, number]): number[][] => [
  [0, 0, v],
  [0, 0, -u],
  [-v, u, 0],
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
  [u, v, 0],
];

describe('smooth warp', () => {
  it('has at most twelve parameters, as the three models promise', () => {
    expect(warpParameters).toBeLessThanOrEqual(12);
  });

  it('has no field that a similarity or the other fields could stand in for', () => {
    const n = 7 + warpParameters;
    const gram = new Float64Array(n * n);
    for (const point of disc) {
      const fields = [...motions(point), ...Array.from({ length: warpParameters }, (_, k) => warpField(k, ...point))];
      for (let r = 0; r < n; r++)
        for (let c = 0; c < n; c++)
          for (let axis = 0; axis < 3; axis++) gram[r * n + c] += fields[r][axis] * fields[c][axis];
    }
    const sizes = Array.from({ length: n }, (_, k) => Math.sqrt(gram[k * n + k]));
    const correlations = gram.map((value, i) => value / (sizes[Math.floor(i / n)] * sizes[i % n]));
    expect(eigenSymmetric(correlations, n).values[0]).toBeGreaterThan(0.02);
  });

  it('is linear in its coefficients', () => {
    const random = seededRandom(1);
    const [a, b] = [0, 1].map(() => Float64Array.from({ length: warpParameters }, () => random.normal()));
    const both = bend(
      a.map((value, k) => 2 * value - b[k]),
      0.3,
      -0.6,
    );
    const [one, other] = [bend(a, 0.3, -0.6), bend(b, 0.3, -0.6)];
    for (let axis = 0; axis < 3; axis++) expect(both[axis]).toBeCloseTo(2 * one[axis] - other[axis], 12);
  });

  it('scales with the model: coefficients and radius times ten, displacement times ten', () => {
    const random = seededRandom(2);
    const coefficients = Float64Array.from({ length: warpParameters }, () => 0.1 * random.normal());
    const small = { before: identity, radiusMm: 15, coefficients };
    const large = { before: identity, radiusMm: 150, coefficients: coefficients.map((c) => 10 * c) };
    const [p, q] = [applyWarp(small, [4, -7, 0.2]), applyWarp(large, [40, -70, 2])];
    for (let axis = 0; axis < 3; axis++) expect(q[axis]).toBeCloseTo(10 * p[axis], 10);
  });

  it('bends a point by the basis at its own place, x and y over the radius', () => {
    const radiusMm = 20;
    for (let k = 0; k < warpParameters; k++) {
      const coefficients = new Float64Array(warpParameters);
      coefficients[k] = 0.2;
      const moved = applyWarp({ before: identity, radiusMm, coefficients }, [8, -14, 0.3]);
      const field = warpField(k, 0.4, -0.7);
      for (const axis of [0, 1, 2]) expect(moved[axis]).toBeCloseTo([8, -14, 0.3][axis] + 0.2 * field[axis], 12);
    }
    // Written out once: u², and growth toward the rim u (u² + v²).
    expect(warpField(0, 0.4, -0.7)[2]).toBeCloseTo(0.16, 12);
    expect(warpField(9, 0.4, -0.7)[0]).toBeCloseTo(0.4 * 0.65, 12);
  });

  it('moves nothing when empty', () => {
    expect(applyWarp(noWarp(20), [3, 4, 5])).toEqual([3, 4, 5]);
  });
});
