/** Inverse of a small positive definite matrix (Gauss–Jordan with pivots), or null. */
export function invertSmall(matrix: Float64Array, n: number): Float64Array | null {
  const m = Float64Array.from(matrix);
  const out = new Float64Array(n * n);
  for (let i = 0; i < n; i++) out[i * n + i] = 1;
  for (let i = 0; i < n; i++) {
    let pivot = i;
    for (let r = i + 1; r < n; r++) if (Math.abs(m[r * n + i]) > Math.abs(m[pivot * n + i])) pivot = r;
    const value = m[pivot * n + i];
    if (!(Math.abs(value) > 1e-300)) return null;
    if (pivot !== i) {
      swapRows(m, i, pivot, n);
      swapRows(out, i, pivot, n);
    }
    for (let c = 0; c < n; c++) {
      m[i * n + c] /= value;
      out[i * n + c] /= value;
    }
    for (let r = 0; r < n; r++) {
      if (r === i) continue;
      const f = m[r * n + i];
      if (f === 0) continue;
      for (let c = 0; c < n; c++) {
        m[r * n + c] -= f * m[i * n + c];
        out[r * n + c] -= f * out[i * n + c];
      }
    }
  }
  return out;
}

function swapRows(m: Float64Array, a: number, b: number, n: number): void {
  for (let c = 0; c < n; c++) {
    const kept = m[a * n + c];
    m[a * n + c] = m[b * n + c];
    m[b * n + c] = kept;
  }
}
