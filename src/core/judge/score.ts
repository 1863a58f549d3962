import type { Features } from './features.ts';
import { scoreFigures, scoreOffset } from './scoreFigures.ts';
import { coarseness, featureReadings, heldRatio, type RivalName, rivals } from './scoreModel.ts';

export interface ScorePart {
  readonly name: string;
  readonly words: string;
  readonly unit: 'mm' | '';
  readonly value: number;
  readonly score: number;
}

export interface Score {
  readonly score: number;
  /** The rival that explains the pair best: the score is against this one. */
  readonly rival: RivalName;
  readonly offset: number;
  /** What each feature adds against that rival. */
  readonly parts: readonly ScorePart[];
}

/**
 * How far the features speak for one matrix over the rival that explains them best:
 *
 *   score = min over rivals r of  cᵣ + Σ wᵣ · log₁₀ p(x | same)/p(x | r),
 *
 * each ratio held within ±3, its densities those of scans as coarse as these. Weights and offsets by linear logistic fusion (Brümmer and du Preez 2006) on the reference population.
 * Shaped like a likelihood ratio, but the population is simulated: a score, no more.
 */
export function scoreOf(features: Features): Score {
  const coarse = coarseness(features);
  const all = rivals.map((rival): Score => {
    const parts = featureReadings.map(({ name, words, unit, plain, weighed }, k): ScorePart => {
      const value = plain(features);
      const { same, against } = scoreFigures[k];
      const { spread, weight } = against[rival];
      return { name, words, unit, value, score: weight * heldRatio(weighed(value), coarse, same, spread) };
    });
    const offset = scoreOffset[rival];
    return { score: parts.reduce((sum, part) => sum + part.score, offset), rival, offset, parts };
  });
  return all.reduce((least, one) => (one.score < least.score ? one : least));
}
