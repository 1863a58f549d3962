import { EigenvalueDecomposition, Matrix } from 'ml-matrix';

/**
 * Solves H x = g for a symmetric, positive semi-definite H (n × n, row-major). Directions whose eigenvalue is below
 * `relative` times the greatest are left alone: x has no part in them. Null where H is not finite.
 */
export function solveSymmetric(h: Float64Array, g: Float64Array, n: number, relative = 1e-9): Float64Array | null {
  if (!h.every(Number.isFinite)) return null;
  const { values, vectors } = eigenSymmetric(h, n);
  const least = relative * values[n - 1];
  const x = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    if (!(values[k] > least)) continue;
    let along = 0;
    for (let r = 0; r < n; r++) along += vectors[r * n + k] * g[r];
    for (let r = 0; r < n; r++) x[r] += (vectors[r * n + k] * along) / values[k];
  }
  return x;
}

/** Eigenvalues, ascending, and eigenvectors as the columns of a row-major matrix, of a symmetric matrix. */
export function eigenSymmetric(h: Float64Array, n: number): { values: Float64Array; vectors: Float64Array } {
  const matrix = Matrix.from1DArray(n, n, h);
  const decomposition = new EigenvalueDecomposition(matrix, { assumeSymmetric: true });
  const order = decomposition.realEigenvalues.map((_, k) => k);
  order.sort((a, b) => decomposition.realEigenvalues[a] - decomposition.realEigenvalues[b]);
  const vectors = new Float64Array(n * n);
  order.forEach((from, to) => {
    for (let r = 0; r < n; r++) vectors[r * n + to] = decomposition.eigenvectorMatrix.get(r, from);
  });
  return { values: Float64Array.from(order, (k) => decomposition.realEigenvalues[k]), vectors };
}
