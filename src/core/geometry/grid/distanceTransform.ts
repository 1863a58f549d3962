/**
 * Distance in cells from each cell of `region` (1 = inside) to the centre of the nearest cell outside it; cells beyond
 * the grid count as outside. Exact Euclidean distances, two passes of lower envelopes of parabolas, O(cells).
 * Source: Felzenszwalb and Huttenlocher, Theory of Computing 8, 2012.
 */
export function distanceTransform(region: Uint8Array, width: number): Float32Array {
  const height = width > 0 ? region.length / width : 0;
  const line = lineOf(Math.max(width, height) + 2);
  const squared = new Float64Array(region.length);
  for (let col = 0; col < width; col++) downColumn(line, region, width, height, col, squared);
  const out = new Float32Array(region.length);
  for (let row = 0; row < height; row++) alongRow(line, squared, width, row, out);
  return out;
}

function downColumn(
  line: Line,
  region: Uint8Array,
  width: number,
  height: number,
  col: number,
  squared: Float64Array,
): void {
  const { f, d, apex, from } = line;
  for (let row = 0, i = col; row < height; row++, i += width) f[row + 1] = region[i] ? Number.POSITIVE_INFINITY : 0;
  f[0] = 0;
  f[height + 1] = 0;
  lowerEnvelope(height + 2, f, d, apex, from);
  for (let row = 0, i = col; row < height; row++, i += width) squared[i] = d[row + 1];
}

function alongRow(line: Line, squared: Float64Array, width: number, row: number, out: Float32Array): void {
  const { f, d, apex, from } = line;
  const first = row * width;
  for (let col = 0; col < width; col++) f[col + 1] = squared[first + col];
  f[0] = 0;
  f[width + 1] = 0;
  lowerEnvelope(width + 2, f, d, apex, from);
  for (let col = 0; col < width; col++) out[first + col] = Math.sqrt(d[col + 1]);
}

/** A line of cells and what is found along it. */
type Line = ReturnType<typeof lineOf>;
const lineOf = (longest: number) => ({
  f: new Float64Array(longest),
  d: new Float64Array(longest),
  apex: new Int32Array(longest),
  from: new Float64Array(longest + 1),
});

/** d(p) = min over q of (p − q)² + f(q), in a line of `n` cells. */
function lowerEnvelope(n: number, f: Float64Array, d: Float64Array, apex: Int32Array, from: Float64Array): void {
  let k = -1;
  for (let q = 0; q < n; q++) {
    if (f[q] === Number.POSITIVE_INFINITY) continue;
    let s = Number.NEGATIVE_INFINITY;
    while (k >= 0) {
      const p = apex[k];
      s = (f[q] + q * q - f[p] - p * p) / (2 * (q - p));
      if (s > from[k]) break;
      k--;
    }
    k++;
    apex[k] = q;
    from[k] = k === 0 ? Number.NEGATIVE_INFINITY : s;
  }
  for (let q = 0, at = 0; q < n; q++) {
    while (at < k && from[at + 1] < q) at++;
    d[q] = (q - apex[at]) ** 2 + f[apex[at]];
  }
}
