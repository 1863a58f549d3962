import { cllr, type KnownScores, log10LikelihoodRatio } from '../../../src/core/judge/calibration.ts';

/** A fitted pair that was scored once. */
export interface ScoredPair {
  /** What was made: pairs of a kind count together as much as those of any other. */
  readonly kind: string;
  readonly same: boolean;
  readonly score: number;
}

/**
 * C_llr of pairs whose scores are made likelihood ratios on others (another generator's, or other sets), every kind of pair weighted alike, and the least that
 * these scores could have reached, calibrated on the pairs themselves (Brümmer and du Preez 2006).
 */
export function crossCalibration(
  on: readonly ScoredPair[],
  of: readonly ScoredPair[],
): { cllr: number; least: number } {
  return { cllr: costOf(of, known(on)), least: costOf(of, known(of)) };
}

/** Scores repeated so that every kind of pair counts alike within its answer. */
function known(pairs: readonly ScoredPair[]): KnownScores {
  const of = (same: boolean): number[] => {
    const kinds = byKind(pairs, same);
    const most = Math.max(...kinds.map(({ length }) => length));
    return kinds.flatMap((scores) => Array.from({ length: most }, (_, k) => scores[k % scores.length]));
  };
  return { name: 'rows', same: of(true), different: of(false) };
}

function costOf(pairs: readonly ScoredPair[], calibration: KnownScores): number {
  const ratio = (score: number): number => 10 ** (log10LikelihoodRatio(score, calibration) ?? 0);
  // Half of the mean over the kinds of either answer: `cllr` of one kind of each is taken apart and put together.
  const half = (same: boolean): number => {
    const costs = byKind(pairs, same).map((scores) =>
      same ? cllr(scores.map(ratio), [0]) : cllr([Number.POSITIVE_INFINITY], scores.map(ratio)),
    );
    return costs.reduce((sum, cost) => sum + cost, 0) / costs.length;
  };
  return half(true) + half(false);
}

function byKind(pairs: readonly ScoredPair[], same: boolean): number[][] {
  const kinds = new Map<string, number[]>();
  for (const pair of pairs) if (pair.same === same) kinds.set(pair.kind, [...(kinds.get(pair.kind) ?? []), pair.score]);
  return [...kinds.values()];
}
