/** Robust numbers over plain arrays. All skip NaN; all give NaN for no data. */
export type Numbers = ArrayLike<number>;

/** Ascending copy without NaN. */
export function sortedFinite(values: Numbers): Float64Array {
  const kept = new Float64Array(values.length);
  let n = 0;
  for (let i = 0; i < values.length; i++) if (!Number.isNaN(values[i])) kept[n++] = values[i];
  return kept.subarray(0, n).sort();
}

/** Quantile q in [0, 1] of an ascending array, linear between order statistics. */
export function quantileOfSorted(sorted: Numbers, q: number): number {
  if (sorted.length === 0) return Number.NaN;
  const at = q * (sorted.length - 1);
  const low = Math.floor(at);
  const high = Math.min(sorted.length - 1, low + 1);
  return sorted[low] + (at - low) * (sorted[high] - sorted[low]);
}

export const quantile = (values: Numbers, q: number): number => quantileOfSorted(sortedFinite(values), q);
export const median = (values: Numbers): number => quantile(values, 0.5);

/** Median of |value − median|, not scaled. Times 1.4826 it estimates the σ of normal data. */
export function medianAbsoluteDeviation(values: Numbers): number {
  const centre = median(values);
  return median(Float64Array.from(values, (value) => Math.abs(value - centre)));
}

export const sigmaFromMad = 1.4826;

export function rootMeanSquare(values: Numbers): number {
  let sum = 0;
  let n = 0;
  for (let i = 0; i < values.length; i++)
    if (!Number.isNaN(values[i])) {
      sum += values[i] ** 2;
      n++;
    }
  return Math.sqrt(sum / n);
}
