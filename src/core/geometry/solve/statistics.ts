/** Robust numbers over plain arrays. All skip NaN; all give NaN for no data. */
export type Numbers = ArrayLike<number>;

/** Ascending copy without NaN. */
export const sortedFinite = (values: Numbers): Float64Array => finite(values).sort();

/** Copy without NaN. */
function finite(values: Numbers): Float64Array {
  const kept = new Float64Array(values.length);
  let n = 0;
  for (let i = 0; i < values.length; i++) if (!Number.isNaN(values[i])) kept[n++] = values[i];
  return kept.subarray(0, n);
}

/** Quantile q in [0, 1] of an ascending array, linear between order statistics. */
export function quantileOfSorted(sorted: Numbers, q: number): number {
  if (sorted.length === 0) return Number.NaN;
  const at = q * (sorted.length - 1);
  const low = Math.floor(at);
  const high = Math.min(sorted.length - 1, low + 1);
  return sorted[low] + (at - low) * (sorted[high] - sorted[low]);
}

/** Quantile q in [0, 1], linear between order statistics, which are selected and not sorted: O(n). */
export function quantile(values: Numbers, q: number): number {
  const kept = finite(values);
  if (kept.length < 600) return quantileOfSorted(kept.sort(), q);
  const at = q * (kept.length - 1);
  const low = Math.floor(at);
  const below = select(kept, low);
  if (low + 1 >= kept.length) return below;
  let above = kept[low + 1];
  for (let i = low + 2; i < kept.length; i++) if (kept[i] < above) above = kept[i];
  return below + (at - low) * (above - below);
}

/** Value number k in ascending order; moves the smaller before it and the greater behind it (Hoare 1961, FIND). */
function select(values: Float64Array, k: number): number {
  let from = 0;
  let to = values.length - 1;
  while (from < to) {
    const pivot = values[k];
    let i = from;
    let j = to;
    while (i <= j) {
      while (values[i] < pivot) i++;
      while (values[j] > pivot) j--;
      if (i > j) break;
      const kept = values[i];
      values[i++] = values[j];
      values[j--] = kept;
    }
    if (j < k) from = i;
    if (i > k) to = j;
  }
  return values[k];
}

export const median = (values: Numbers): number => quantile(values, 0.5);

/** Median of |value − median|, not scaled. Times 1.4826 it estimates the σ of normal data. */
export function medianAbsoluteDeviation(values: Numbers): number {
  const centre = median(values);
  const away = new Float64Array(values.length);
  for (let i = 0; i < away.length; i++) away[i] = Math.abs(values[i] - centre);
  return median(away);
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

/** Pearson's correlation from weighted sums (Σw, Σwa, Σwb, Σwa², Σwab, Σwb²); null where one of the two does not vary. */
export function correlationOfSums(
  n: number,
  sa: number,
  sb: number,
  saa: number,
  sab: number,
  sbb: number,
): number | null {
  const vaa = saa - (sa * sa) / n;
  const vbb = sbb - (sb * sb) / n;
  return vaa > 0 && vbb > 0 ? (sab - (sa * sb) / n) / Math.sqrt(vaa * vbb) : null;
}
