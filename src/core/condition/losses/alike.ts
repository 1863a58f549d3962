/** Sums over places of two rows of what smooth forms leave: of their squares, and of their products. */
export interface LeftOver {
  aa: number;
  bb: number;
  ab: number;
  count: number;
}

export const nothingLeft = (): LeftOver => ({ aa: 0, bb: 0, ab: 0, count: 0 });

/** Adds two rows, place by place. */
export function addLeft(sum: LeftOver, a: ArrayLike<number>, b: ArrayLike<number>): void {
  for (let k = 0; k < a.length; k++) {
    sum.aa += a[k] * a[k];
    sum.bb += b[k] * b[k];
    sum.ab += a[k] * b[k];
  }
  sum.count += a.length;
}

/** The lesser root mean square of the two. */
export const roughOf = ({ aa, bb, count }: LeftOver): number => Math.sqrt(Math.min(aa, bb) / count);

/** Correlation of the two. */
export const alikeOf = ({ aa, bb, ab }: LeftOver): number => ab / Math.sqrt(aa * bb || 1);

/**
 * How surely both rows are one, standard deviations: z = atanh(r) √(n − k − 3) of Fisher (1921), r their correlation over n places that count
 * as drawn by chance each for itself, k the parameters that were taken off besides their mean.
 */
export function sureAlike(left: LeftOver, places: number, parameters: number): number {
  const free = places - parameters - 3;
  return free > 0 ? Math.atanh(Math.min(0.9999, alikeOf(left))) * Math.sqrt(free) : 0;
}
