import type { Thresholds } from './types.ts';

/**
 * How often two different matrices reach a score: P(S ≥ s) ≤ rate · exp(−s / perScore) for s ≥ 0. Upper 95 % limits of both numbers from
 * the committed rows of pairs of different matrices that were scored once, hand copies of 30 to 60 µm among them (docs/collection.md; worked
 * out again in tests/collection/falseSupport.test.ts). A modelled tail: nothing above 4.4 was ever seen.
 */
export interface FalseSupport {
  readonly rate: number;
  readonly perScore: number;
}

export const heldOutFalseSupport: FalseSupport = { rate: 0.0301, perScore: 1.814 };

export const errorDefaults = {
  /** Expected number of false merges in the whole collection, at most. */
  mostFalseMerges: 0.1,
  /** No link counts below the score of support itself. */
  leastScore: 2,
};

export const falseSupportAt = (score: number, { rate, perScore }: FalseSupport): number =>
  rate * Math.exp(-Math.max(0, score) / perScore);

const scoreAt = (chance: number, { rate, perScore }: FalseSupport): number =>
  perScore * Math.log(rate / Math.min(rate, chance));

/**
 * The scores from which links tie, so that over m compared pairs the expected number of false merges E = m ε(alone) + ½ m d ε(together)² is
 * at most `mostFalseMerges`, half of it for either way. d = 2 m / n is how many others an object was compared with: of the pairs that run between
 * the same two groups as a given one so many at most are counted. The expectation of a sum needs no independence; that of two
 * links does, which is why they must rest on different witnesses. m and d are rounded up to powers of two, so that a new object seldom changes
 * anything elsewhere. Source: control of the expected number of false discoveries by Bonferroni's sum (per-family error rate),
 * Gordon, Glazko, Qiu and Yakovlev, Annals of Applied Statistics 1(1), 2007.
 */
export function thresholdsFor(
  compared: number,
  objects: number,
  bound = heldOutFalseSupport,
  options = errorDefaults,
): Thresholds {
  const m = powerOfTwo(Math.max(1, compared));
  const d = powerOfTwo(Math.max(1, (2 * m) / powerOfTwo(Math.max(2, objects))));
  const half = options.mostFalseMerges / 2;
  const together = Math.max(options.leastScore, scoreAt(Math.sqrt((2 * half) / (m * d)), bound));
  const alone = Math.max(together, scoreAt(half / m, bound));
  const expectedFalseMerges = m * falseSupportAt(alone, bound) + (m * d * falseSupportAt(together, bound) ** 2) / 2;
  return { alone, together, expectedFalseMerges };
}

const powerOfTwo = (value: number): number => 2 ** Math.ceil(Math.log2(value) - 1e-9);
