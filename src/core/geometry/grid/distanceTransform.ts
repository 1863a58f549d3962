/**
 * Distance in cells from each cell of `region` (1 = inside) to the centre of the nearest cell outside it; cells beyond
 * the grid count as outside. Exact Euclidean distances, two passes of lower envelopes of parabolas, O(cells).
 * Source: Felzenszwalb and Huttenlocher, Theory of Computing 8, 2012.
 */
export function distanceTransform(region: Uint8Array, width: number): Float32Array {
  const height = width > 0 ? region.length / width : 0;
  const longest = Math.max(width, height) + 2;
  const line = envelope(longest);
  const squared = new Float64Array(region.length);
  for (let col = 0; col < width; col++) {
    for (let row = 0; row < height; row++) line.f[row + 1] = region[row * width + col] ? Number.POSITIVE_INFINITY : 0;
    line.f[0] = 0;
    line.f[height + 1] = 0;
    line.run(height + 2);
    for (let row = 0; row < height; row++) squared[row * width + col] = line.d[row + 1];
  }
  const out = new Float32Array(region.length);
  for (let row = 0; row < height; row++) {
    for (let col = 0; col < width; col++) line.f[col + 1] = squared[row * width + col];
    line.f[0] = 0;
    line.f[width + 1] = 0;
    line.run(width + 2);
    for (let col = 0; col < width; col++) out[row * width + col] = Math.sqrt(line.d[col + 1]);
  }
  return out;
}

/** d(p) = min over q of (p − q)² + f(q), in a line of at most `longest` cells. */
function envelope(longest: number) {
  const f = new Float64Array(longest);
  const d = new Float64Array(longest);
  const apex = new Int32Array(longest);
  const from = new Float64Array(longest + 1);
  const run = (n: number): void => {
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
  };
  return { f, d, run };
}
