import { Matrix, solve } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { eigenSymmetric, seededRandom, solveDefinite, solveSymmetric } from '../../../src/core/geometry/index.ts';

/** AᵀA of a random tall matrix: symmetric and positive definite. */
function definite(n: number, seed: number): Float64Array {
  const random = seededRandom(seed);
  const a = Array.from({ length: 3 * n }, () => Array.from({ length: n }, () => random.normal()));
  const h = new Float64Array(n * n);
  for (const row of a) for (let r = 0; r < n; r++) for (let c = 0; c < n; c++) h[r * n + c] += row[r] * row[c];
  return h;
}

const product = (h: Float64Array, x: Float64Array, n: number): Float64Array =>
  Float64Array.from({ length: n }, (_, r) => x.reduce((sum, value, c) => sum + h[r * n + c] * value, 0));

describe('solveSymmetric', () => {
  for (const n of [1, 4, 7, 19])
    it(`agrees with a general solver, ${n} unknowns`, () => {
      const random = seededRandom(n);
      const h = definite(n, 10 + n);
      const g = Float64Array.from({ length: n }, () => random.normal());
      const x = solveSymmetric(h, g, n) as Float64Array;
      const expected = solve(Matrix.from1DArray(n, n, h), Matrix.columnVector(g)).to1DArray();
      for (let k = 0; k < n; k++) expect(x[k]).toBeCloseTo(expected[k], 10);
    });

  it('leaves a direction alone that the matrix does not hold', () => {
    // Only x + y is held: (1, 1)(1, 1)ᵀ.
    const x = solveSymmetric(Float64Array.of(1, 1, 1, 1), Float64Array.of(3, 3), 2) as Float64Array;
    expect(x[0] + x[1]).toBeCloseTo(3, 12);
    expect(x[0] - x[1]).toBeCloseTo(0, 12);
  });

  it('gives the smallest answer of a matrix of rank 5 of 7, with residual only outside its range', () => {
    const random = seededRandom(3);
    const rows = Array.from({ length: 5 }, () => Float64Array.from({ length: 7 }, () => random.normal()));
    const h = new Float64Array(49);
    for (const row of rows) for (let r = 0; r < 7; r++) for (let c = 0; c < 7; c++) h[r * 7 + c] += row[r] * row[c];
    const wanted = Float64Array.from({ length: 7 }, (_, k) => rows[0][k] - 2 * rows[3][k]);
    const x = solveSymmetric(h, product(h, wanted, 7), 7) as Float64Array;
    for (let k = 0; k < 7; k++) expect(x[k]).toBeCloseTo(wanted[k], 8);
  });

  it('gives nothing where the matrix is not finite, and zero where it is empty', () => {
    expect(solveSymmetric(Float64Array.of(1, Number.NaN, Number.NaN, 1), Float64Array.of(1, 1), 2)).toBeNull();
    expect([...(solveSymmetric(new Float64Array(4), Float64Array.of(1, 1), 2) as Float64Array)]).toEqual([0, 0]);
  });
});

describe('eigenSymmetric', () => {
  it('solves the plane case as its closed formula does', () => {
    const [a, b, c] = [3, -1.2, 0.7];
    const { values } = eigenSymmetric(Float64Array.of(a, b, b, c), 2);
    const root = Math.hypot((a - c) / 2, b);
    expect(values[0]).toBeCloseTo((a + c) / 2 - root, 12);
    expect(values[1]).toBeCloseTo((a + c) / 2 + root, 12);
  });

  it('gives ascending values and orthonormal columns with H v = λ v', () => {
    const n = 7;
    const h = definite(n, 5);
    const { values, vectors } = eigenSymmetric(h, n);
    const column = (k: number): Float64Array => Float64Array.from({ length: n }, (_, r) => vectors[r * n + k]);
    for (let k = 0; k < n; k++) {
      if (k > 0) expect(values[k]).toBeGreaterThanOrEqual(values[k - 1]);
      const turned = product(h, column(k), n);
      for (let r = 0; r < n; r++) expect(turned[r]).toBeCloseTo(values[k] * vectors[r * n + k], 9);
      for (let other = 0; other < n; other++)
        expect(column(k).reduce((sum, value, r) => sum + value * column(other)[r], 0)).toBeCloseTo(
          other === k ? 1 : 0,
          10,
        );
    }
  });
});

describe('solveDefinite', () => {
  for (const n of [1, 3, 6, 19])
    it(`agrees with a general solver, ${n} unknowns, and reads the lower half alone`, () => {
      const random = seededRandom(n);
      const h = definite(n, 20 + n);
      const g = Float64Array.from({ length: n }, () => random.normal());
      const expected = solve(Matrix.from1DArray(n, n, h), Matrix.columnVector(g)).to1DArray();
      for (let r = 0; r < n; r++) for (let c = r + 1; c < n; c++) h[r * n + c] = Number.NaN;
      const x = solveDefinite(h, g, n) as Float64Array;
      for (let k = 0; k < n; k++) expect(x[k]).toBeCloseTo(expected[k], 10);
    });

  it('says where a matrix does not hold a direction, or is not finite', () => {
    expect(solveDefinite(Float64Array.of(1, 1, 1, 1), Float64Array.of(3, 3), 2)).toBeNull();
    expect(solveDefinite(Float64Array.of(0), Float64Array.of(1), 1)).toBeNull();
    expect(solveDefinite(Float64Array.of(Number.NaN), Float64Array.of(1), 1)).toBeNull();
  });
});
