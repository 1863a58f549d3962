import { distancesInside } from '../../../kernels/index.ts';

/**
 * Distance in cells from each cell of `region` (1 = inside) to the centre of the nearest cell outside it; cells beyond
 * the grid count as outside. Exact Euclidean distances: along columns by counting, along rows by lower envelopes of parabolas, O(cells).
 * Source: Felzenszwalb and Huttenlocher, Theory of Computing 8, 2012. By a compiled kernel where the engine lets it run, which gives
 * the same numbers as `distancesPlainly`.
 */
export const distanceTransform = (region: Uint8Array, width: number): Float32Array =>
  distancesInside(region, width) ?? distancesPlainly(region, width);

export function distancesPlainly(region: Uint8Array, width: number): Float32Array {
  const out = new Float32Array(region.length);
  const steps = stepsAlongColumns(region, width);
  const line: Line = {
    f: new Float64Array(width + 2),
    apex: new Int32Array(width + 2),
    from: new Float64Array(width + 2),
  };
  for (let first = 0; first < region.length; first += width) {
    for (let col = 0; col < width; col++) line.f[col + 1] = steps[first + col] * steps[first + col];
    distancesAlong(line, out.subarray(first, first + width));
  }
  return out;
}

/** From each cell to the nearest outside the region in its own column. */
function stepsAlongColumns(region: Uint8Array, width: number): Int32Array {
  const steps = new Int32Array(region.length);
  for (let i = 0; i < steps.length; i++) if (region[i]) steps[i] = (i < width ? 0 : steps[i - width]) + 1;
  for (let i = steps.length - 1; i >= 0; i--)
    steps[i] = Math.min(steps[i], (i + width < steps.length ? steps[i + width] : 0) + 1);
  return steps;
}

/** A line of cells with one beyond either end: squared distances within columns, and parabolas of the envelope with where each begins. */
interface Line {
  readonly f: Float64Array;
  readonly apex: Int32Array;
  readonly from: Float64Array;
}

/** √ min over q of (p − q)² + f(q). */
function distancesAlong({ f, apex, from }: Line, out: Float32Array): void {
  let k = -1;
  for (let q = 0; q < f.length; q++) {
    let s = Number.NEGATIVE_INFINITY;
    for (; k >= 0; k--) {
      const p = apex[k];
      s = (f[q] + q * q - f[p] - p * p) / (2 * (q - p));
      if (s > from[k]) break;
    }
    k++;
    apex[k] = q;
    from[k] = k === 0 ? Number.NEGATIVE_INFINITY : s;
  }
  for (let p = 1, at = 0; p <= out.length; p++) {
    while (at < k && from[at + 1] < p) at++;
    const away = p - apex[at];
    out[p - 1] = Math.sqrt(away * away + f[apex[at]]);
  }
}
