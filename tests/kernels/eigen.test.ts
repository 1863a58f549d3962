import { describe, expect, it } from 'vitest';
import { eigenPlainly, eigenSymmetric, seededRandom } from '../../src/core/geometry/index.ts';
import { eigenByKernel } from '../../src/kernels/index.ts';

/** A A ᵀ of a random n × rank: symmetric, of that rank; some rows and columns are zero. */
function ofRank(n: number, rank: number, seed: number, empty = 0): Float64Array {
  const random = seededRandom(seed);
  const a = Array.from({ length: n }, (_, r) =>
    Array.from({ length: rank }, () => (r < empty ? 0 : random.normal() * 10 ** random.between(-3, 3))),
  );
  return Float64Array.from({ length: n * n }, (_, i) =>
    a[Math.floor(i / n)].reduce((sum, value, k) => sum + value * a[i % n][k], 0),
  );
}

describe('the kernel for eigenvectors', () => {
  it('gives the same numbers as its referee, of full rank or not', () => {
    for (const [n, rank, empty] of [
      [1, 1, 0],
      [2, 2, 0],
      [2, 2, 1],
      [7, 7, 0],
      [7, 4, 2],
      [19, 19, 0],
      [19, 11, 3],
      [18, 18, 17],
      [5, 0, 0],
      [64, 64, 0],
    ])
      for (let seed = 0; seed < 20; seed++) {
        const h = ofRank(n, rank, 100 * n + seed, empty);
        expect(eigenByKernel(h, n)).toEqual(eigenPlainly(h, n));
      }
  });

  it('finds directions at right angles that the matrix only stretches, in order', () => {
    const n = 12;
    const h = ofRank(n, n, 5);
    const { values, vectors } = eigenSymmetric(h, n);
    const size = values[n - 1];
    for (let k = 0; k < n; k++) {
      if (k > 0) expect(values[k]).toBeGreaterThanOrEqual(values[k - 1]);
      for (let r = 0; r < n; r++) {
        let stretched = 0;
        let other = 0;
        for (let c = 0; c < n; c++) {
          stretched += h[r * n + c] * vectors[c * n + k];
          other += vectors[c * n + r] * vectors[c * n + k];
        }
        expect(stretched / size).toBeCloseTo((values[k] * vectors[r * n + k]) / size, 12);
        expect(other).toBeCloseTo(r === k ? 1 : 0, 12);
      }
    }
  });

  it('leaves larger matrices to the library', () => {
    const h = ofRank(70, 70, 1);
    expect(eigenByKernel(h, 70)).toBeNull();
    expect(eigenSymmetric(h, 70).values.length).toBe(70);
  });
});
