import { type Selecting, selectingFrom } from '../../../kernels/index.ts';

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
  const ready = selectingFrom(values);
  return ready ? quantileIn(ready.kernel, ready.count, q) : quantilePlainly(values, q);
}

/** The kernel's referee, which gives the same numbers. */
export function quantilePlainly(values: Numbers, q: number): number {
  const kept = finite(values);
  const plain: Order = {
    select: (_, k) => select(kept, k),
    leastFrom: (_, first) => kept.subarray(first).reduce((least, value) => Math.min(least, value)),
  };
  return quantileIn(plain, kept.length, q);
}

/** Whoever tells order statistics of a list of `count` numbers. */
type Order = Pick<Selecting, 'select' | 'leastFrom'>;

function quantileIn(order: Order, count: number, q: number): number {
  if (count === 0) return Number.NaN;
  const at = q * (count - 1);
  const low = Math.floor(at);
  const below = order.select(count, low);
  return low + 1 < count ? below + (at - low) * (order.leastFrom(count, low + 1) - below) : below;
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
  const ready = selectingFrom(values);
  if (!ready) return deviationPlainly(values);
  const { kernel, count } = ready;
  kernel.takeAway(count, quantileIn(kernel, count, 0.5));
  return quantileIn(kernel, count, 0.5);
}

/** The kernel's referee. */
export function deviationPlainly(values: Numbers): number {
  const centre = quantilePlainly(values, 0.5);
  const away = new Float64Array(values.length);
  for (let i = 0; i < away.length; i++) away[i] = Math.abs(values[i] - centre);
  return quantilePlainly(away, 0.5);
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

/** Pearson's correlation of two fields over some of their places; null where one of the two does not vary there. */
export function correlationAt(places: ArrayLike<number>, a: Numbers, b: Numbers): number | null {
  let [sa, sb, aa, bb, ab] = [0, 0, 0, 0, 0];
  for (let k = 0; k < places.length; k++) {
    const one = a[places[k]];
    const two = b[places[k]];
    sa += one;
    sb += two;
    aa += one * one;
    bb += two * two;
    ab += one * two;
  }
  return correlationOfSums(places.length, sa, sb, aa, ab, bb);
}
