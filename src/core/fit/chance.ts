import { quantile } from '../geometry/index.ts';

/** What two faces reach where they cannot agree, over the same search: a Gumbel law of its maximum (for normal values: Gumbel 1958). */
export interface Chance {
  /** Location and scale of the law, in the unit of `significance`. */
  readonly location: number;
  readonly spread: number;
  /** log₁₀ of the chance that the maximum reaches what the best proper fit reaches. */
  readonly log10P: number;
  /** The best reflection with the right sense of height: what borders and a design's own mirror axis give. */
  readonly mirror: number;
}

export const chanceDefaults = {
  /** Spread as a share of the location, and the least: the greatest of N normal values has spread/location = 1/(2 ln N), N about 10³ to 10⁵ here. */
  share: 1 / 12,
  leastSpread: 0.5,
};

/**
 * The law of the greatest chance agreement, from the best places of ways of laying the faces on one another that no
 * pair allows: with heights of the wrong sign, straight and reflected. Borders, and whatever else two seals share, count
 * against one another there, and the search is the same. Location: the greatest seen, which is above the law's own.
 * A spread taken from the list's own spacings lost: faces with a few strong places (a square border) have lists of two kinds, and pairs
 * at 30 to 67 standard deviations came out near 10⁻⁴.
 */
export function chanceOf(best: number, wrongSign: readonly number[], mirror: number, options = chanceDefaults): Chance {
  const location = Math.max(0, ...wrongSign);
  const spread = Math.max(options.leastSpread, options.share * location);
  return { location, spread, log10P: log10Exceedance((best - location) / spread), mirror };
}

/**
 * Density of what chance reaches, from values of which nearly all are chance: Gumbel with median and quartiles of theirs (quantile p lies at
 * location − spread ln(−ln p)), the spread at least `leastSpread`.
 */
export function chanceDensity(values: readonly number[], options = chanceDefaults): (value: number) => number {
  const [low, middle, high] = [0.25, 0.5, 0.75].map((p) => quantile(values, p));
  const standard = (p: number): number => -Math.log(-Math.log(p));
  const spread = Math.max(options.leastSpread, (high - low) / (standard(0.75) - standard(0.25)));
  const location = middle - spread * standard(0.5);
  return (value) => {
    const y = (value - location) / spread;
    return Math.exp(-y - Math.exp(-y)) / spread;
  };
}

/** What a place must reach for a chance of 10^log10P. */
export const reachOf = ({ location, spread }: Chance, log10P: number): number => location - spread * Math.LN10 * log10P;

/** log₁₀(1 − exp(−exp(−x))), without loss for large x. */
const log10Exceedance = (x: number): number => (x > 20 ? -x / Math.LN10 : Math.log10(-Math.expm1(-Math.exp(-x))));
