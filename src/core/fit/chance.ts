import type { PlanarFit } from './planar.ts';

/** What two faces reach where they cannot agree, over the same search: a Gumbel law of its maximum. */
export interface Chance {
  /** Location and scale of the law, in the unit of `significance`. */
  readonly location: number;
  readonly spread: number;
  /** log₁₀ of the chance that the maximum reaches what the best proper fit reaches. */
  readonly log10P: number;
  /** The best reflection with the right sense of height: what borders and a design's own mirror axis give. */
  readonly mirror: number;
}

/** Least spread: two lists of a few maxima may lie close by chance. */
const leastSpread = 0.5;

/**
 * Fits the law of the greatest chance agreement to the best places of ways of laying the faces on one another that no
 * pair allows: with heights of the wrong sign, straight and reflected. Borders, and whatever else two seals share, count
 * against one another there, and the search is the same.
 *
 * The k greatest of many values with an exponential tail (Gumbel's domain; Weissman 1978): scale s = mean excess over the least of
 * them, location = least + s ln k.
 */
export function chanceOf(best: number, wrongSign: readonly number[], mirror: number): Chance {
  const sorted = [...wrongSign].sort((a, b) => b - a);
  const least = sorted[sorted.length - 1] ?? 0;
  const excess = sorted.slice(0, -1).reduce((sum, value) => sum + value - least, 0) / Math.max(1, sorted.length - 1);
  const spread = Math.max(leastSpread, excess);
  const location = least + spread * Math.log(Math.max(1, sorted.length));
  return { location, spread, log10P: log10Exceedance((best - location) / spread), mirror };
}

/** log₁₀(1 − exp(−exp(−x))), without loss for large x. */
const log10Exceedance = (x: number): number =>
  x > 20 ? -x / Math.LN10 : Math.log10(-Math.expm1(-Math.exp(-x)));

/** Which of the four ways a place belongs to, seen from the best one. */
export const wayOf = (fit: PlanarFit, best: PlanarFit): 'proper' | 'wrongSign' | 'mirror' =>
  fit.negate !== best.negate ? 'wrongSign' : fit.flipX === best.flipX ? 'proper' : 'mirror';
