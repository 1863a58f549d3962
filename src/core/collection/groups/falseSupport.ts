import type { Thresholds } from './types.ts';

/**
 * How often two different matrices reach a score: P(S ≥ s) ≤ rate · exp(−s / perScore) for s ≥ 1. From the hardest pairs that are to be told apart: 256
 * pairs across careful copies by hand, off by 60 to 120 µm, of fourteen families (docs/collection.md; worked out again in tests/collection/falseSupport.test.ts). Upper
 * 95 % limits of both, how often a pair is above 1, whole families drawn anew, and the mean excess there. A modelled tail: nothing above 2.6 was seen. Copies off by less are
 * not in it: they reach 13, and what parts them is looked for in all pairs together (twoMatrices.ts).
 */
export interface FalseSupport {
  readonly rate: number;
  readonly perScore: number;
}

export const copiesFalseSupport: FalseSupport = { rate: 0.15 * Math.exp(1 / 0.67), perScore: 0.67 };

export const errorDefaults = {
  /** Expected number of false merges in the whole collection, at most. */
  mostFalseMerges: 0.1,
  /** No link counts below the score of support itself. */
  leastScore: 2,
  /** No link counts alone below this. */
  leastAlone: 4.5,
  /** Of false joins by two links and more, how many do not show two matrices in the shifts of all pairs together, at most. */
  unshown: 0.3,
};

export const falseSupportAt = (score: number, { rate, perScore }: FalseSupport): number =>
  rate * Math.exp(-Math.max(0, score) / perScore);

const scoreAt = (chance: number, { rate, perScore }: FalseSupport): number =>
  perScore * Math.log(rate / Math.min(rate, chance));

/**
 * The scores from which k links tie that rest on different witnesses, k = 1, 2, 3, so that over m pairs of different matrices the expected number of false merges
 * stays below `mostFalseMerges`, a third of it for each way: E_k = q m d^(k − 1) ε(s_k)^k / k!, q = 1 for one link, else `unshown`. d = 2 m / n is how many others of other matrices an object was
 * compared with: of the pairs that run between the same two groups as a given one so many at most are counted. The expectation of a sum needs no independence;
 * that of k links together does, which is why they must rest on different witnesses. m and d are rounded up to powers of two, so that a
 * new object seldom changes anything elsewhere. Source: control of the expected number of false discoveries by Bonferroni's sum
 * (per-family error rate), Gordon, Glazko, Qiu and Yakovlev, Annals of Applied Statistics 1(1), 2007.
 */
export function thresholdsFor(
  different: number,
  objects: number,
  bound = copiesFalseSupport,
  options = errorDefaults,
): Thresholds {
  const m = powerOfTwo(Math.max(1, different));
  const d = powerOfTwo(Math.max(1, (2 * m) / 2 ** Math.floor(Math.log2(Math.max(2, objects)))));
  const share = options.mostFalseMerges / 3;
  const waysOf = (k: number): number => ((k > 1 ? options.unshown : 1) * m * d ** (k - 1)) / factorial[k];
  const scoreOf = (k: number): number => Math.max(options.leastScore, scoreAt((share / waysOf(k)) ** (1 / k), bound));
  const three = scoreOf(3);
  const two = Math.max(three, scoreOf(2));
  const alone = Math.max(two, options.leastAlone, scoreOf(1));
  const expected = (k: number, score: number): number => waysOf(k) * falseSupportAt(score, bound) ** k;
  return { alone, two, three, expectedFalseMerges: expected(1, alone) + expected(2, two) + expected(3, three) };
}

/**
 * How many of the compared pairs are of different matrices, at most about: of those nearly all stay below support, so that they are
 * no more than what is not supported, over 1 − ε (Storey, Journal of the Royal Statistical Society B 64, 2002).
 */
export const differentPairs = (
  compared: number,
  supported: number,
  bound = copiesFalseSupport,
  { leastScore } = errorDefaults,
): number => Math.max(1, compared - supported) / (1 - falseSupportAt(leastScore, bound));

const factorial = [1, 1, 2, 6];

const powerOfTwo = (value: number): number => 2 ** Math.ceil(Math.log2(value) - 1e-9);
