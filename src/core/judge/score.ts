import type { Features } from './features.ts';

/** One normal description of a feature in the two populations. */
interface FeatureModel {
  readonly name: string;
  readonly of: (features: Features) => number;
  /** Mean and standard deviation over pairs of one matrix, and over pairs of different matrices of one pattern. */
  readonly same: readonly [number, number];
  readonly different: readonly [number, number];
}

const logit = (p: number): number => Math.log((p + 0.02) / (1.02 - p));
const fisher = (r: number): number => Math.atanh(Math.max(-0.99, Math.min(0.99, r)));

/**
 * Simulated pairs, see docs/judge.md: impressions of one matrix against copies cut again by hand and stock patterns
 * with another legend. The figures are means and standard deviations of the transformed features.
 */
export const scoreModel: readonly FeatureModel[] = [
  { name: 'scatter of the cells', of: (f) => Math.log(f.scatterMm + 0.01), same: [-3.2, 0.4], different: [-1.75, 0.5] },
  { name: 'correlation of the cells', of: (f) => fisher(f.cellCorrelation), same: [1.5, 0.35], different: [0.9, 0.35] },
  { name: 'share of congruent cells', of: (f) => logit(f.congruentShare), same: [2.9, 1], different: [0.2, 1.3] },
  { name: 'fine relief', of: (f) => fisher(f.fineCorrelation), same: [0.95, 0.3], different: [0.35, 0.2] },
];

/**
 * How far the features speak for one matrix over another of the same pattern: the sum of the features' log10 density
 * ratios, each held within ±2, the sum halved, because the features are not independent. No likelihood ratio: a score.
 */
export function scoreOf(features: Features): {
  score: number;
  parts: { name: string; value: number; score: number }[];
} {
  const parts = scoreModel.map(({ name, of, same, different }) => {
    const value = of(features);
    const ratio = (logDensity(value, same) - logDensity(value, different)) / Math.LN10;
    const score = Number.isNaN(value) ? 0 : Math.max(-2, Math.min(2, ratio));
    return { name, value, score };
  });
  return { score: parts.reduce((sum, part) => sum + part.score, 0) / 2, parts };
}

const logDensity = (x: number, [mean, sd]: readonly [number, number]): number =>
  -0.5 * ((x - mean) / sd) ** 2 - Math.log(sd);
