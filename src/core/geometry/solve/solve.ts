import { EigenvalueDecomposition, Matrix } from 'ml-matrix';

/**
 * Solves H x = g for a symmetric, positive semi-definite H (n × n, row-major). Directions whose eigenvalue is below
 * `relative` times the greatest are left alone: x has no part in them. Null where H is not finite.
 */
export const solveSymmetric = (h: Float64Array, g: Float64Array, n: number, relative = 1e-9): Float64Array | null =>
  symmetricSolver(h, n, relative)?.(g) ?? null;

/** The same for many g of one H. */
export function symmetricSolver(
  h: Float64Array,
  n: number,
  relative = 1e-9,
): ((g: Float64Array) => Float64Array) | null {
  if (!h.every(Number.isFinite)) return null;
  const { values, vectors } = eigenSymmetric(h, n);
  const least = relative * values[n - 1];
  return (g) => {
    const x = new Float64Array(n);
    for (let k = 0; k < n; k++) {
      if (!(values[k] > least)) continue;
      let along = 0;
      for (let r = 0; r < n; r++) along += vectors[r * n + k] * g[r];
      for (let r = 0; r < n; r++) x[r] += (vectors[r * n + k] * along) / values[k];
    }
    return x;
  };
}

/** Eigenvalues, ascending, and eigenvectors as the columns of a row-major matrix, of a symmetric matrix. */
export function eigenSymmetric(h: Float64Array, n: number): { values: Float64Array; vectors: Float64Array } {
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(Matrix.from1DArray(n, n, h), {
    assumeSymmetric: true,
  });
  return { values: Float64Array.from(realEigenvalues), vectors: Float64Array.from(eigenvectorMatrix.to1DArray()) };
}

/**
 * Solves H x = g for a symmetric, positive definite H (n × n, row-major, its lower half is read) by Cholesky's factors; null where
 * a pivot is below `relative` times its diagonal: H is then not definite enough to say. `room`: what the factors (n × n) and x are written to, by
 * whoever solves a system a cell.
 */
export function solveDefinite(
  h: Float64Array,
  g: Float64Array,
  n: number,
  relative = 1e-10,
  { l, x } = { l: new Float64Array(n * n), x: new Float64Array(n) },
): Float64Array | null {
  for (let r = 0; r < n; r++)
    for (let c = 0; c <= r; c++) {
      let left = h[r * n + c];
      for (let k = 0; k < c; k++) left -= l[r * n + k] * l[c * n + k];
      if (c < r) l[r * n + c] = left / l[c * n + c];
      else if (left > relative * h[r * n + r]) l[r * n + r] = Math.sqrt(left);
      else return null;
    }
  for (let r = 0; r < n; r++) {
    x[r] = g[r];
    for (let k = 0; k < r; k++) x[r] -= l[r * n + k] * x[k];
    x[r] /= l[r * n + r];
  }
  for (let r = n - 1; r >= 0; r--) {
    for (let k = r + 1; k < n; k++) x[r] -= l[k * n + r] * x[k];
    x[r] /= l[r * n + r];
  }
  return x;
}
