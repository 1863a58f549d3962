import type { Features } from './features.ts';

/** One feature, made normal by a transformation, and how it is spread in two populations. */
interface FeatureModel {
  readonly name: string;
  readonly words: string;
  readonly unit: 'mm' | '';
  /** The number as it is printed, and as it is weighed. */
  readonly plain: (features: Features) => number;
  readonly weighed: (plain: number) => number;
  /** Mean and standard deviation over pairs of one matrix, and over pairs of different matrices of one pattern. */
  readonly same: readonly [mean: number, sd: number];
  readonly different: readonly [mean: number, sd: number];
  readonly weight: number;
}

const logit = (share: number): number => Math.log((share + 0.02) / (1.02 - share));
const fisher = (correlation: number): number => Math.atanh(Math.max(-0.99, Math.min(0.99, correlation)));

/**
 * Figures of 60 simulated pairs of one matrix and 80 of different matrices of one pattern (copies cut again by hand, stock
 * motifs with another legend), spreads widened by a fifth: docs/judge.md. The scatter of the cells tells copies, the
 * shares tell other legends; the four that overlap count a third each, because they say much the same.
 */
export const scoreModel: readonly FeatureModel[] = [
  {
    name: 'scatter of the cells',
    words: 'how far the cells lie from where one smooth fit puts them; a copyist does not repeat every stroke',
    unit: 'mm',
    plain: (f) => f.scatterMm,
    weighed: (mm) => Math.log(mm + 0.01),
    same: [-3.45, 0.32],
    different: [-2.1, 0.45],
    weight: 1,
  },
  {
    name: 'correlation of the cells',
    words: 'median correlation of the relief inside the cells, each at its own best place',
    unit: '',
    plain: (f) => f.cellCorrelation,
    weighed: fisher,
    same: [1.4, 0.33],
    different: [0.95, 0.28],
    weight: 1 / 3,
  },
  {
    name: 'share of congruent cells',
    words: 'share of the compared cells that are congruent',
    unit: '',
    plain: (f) => f.congruentShare,
    weighed: logit,
    same: [2.7, 1.2],
    different: [0.5, 1.4],
    weight: 1 / 3,
  },
  {
    name: 'share of congruent cells where a legend stands',
    words: 'the same over the outer part of the face alone; stock motifs were cut with many legends',
    unit: '',
    plain: (f) => f.outerShare,
    weighed: logit,
    same: [2.8, 1.2],
    different: [0, 1.8],
    weight: 1 / 3,
  },
  {
    name: 'fine relief',
    words: 'correlation of the finest relief that both scans resolve',
    unit: '',
    plain: (f) => f.fineCorrelation,
    weighed: fisher,
    same: [1, 0.22],
    different: [0.72, 0.18],
    weight: 1 / 3,
  },
];

/** No single feature counts for or against more than this, in powers of ten. */
const mostEach = 2;

export interface ScorePart extends Pick<FeatureModel, 'name' | 'words' | 'unit'> {
  readonly value: number;
  readonly score: number;
}

/**
 * How far the features speak for one matrix over another of the same pattern: Σ w · log₁₀ p(x | same)/p(x | different),
 * each ratio held within ±2. Shaped like a likelihood ratio, but the populations are simulated: a score, no more.
 */
export function scoreOf(features: Features): { score: number; parts: ScorePart[] } {
  const parts = scoreModel.map(({ name, words, unit, plain, weighed, same, different, weight }): ScorePart => {
    const value = plain(features);
    const x = weighed(value);
    const ratio = (logDensity(x, same) - logDensity(x, different)) / Math.LN10;
    const held = Number.isNaN(x) ? 0 : Math.max(-mostEach, Math.min(mostEach, ratio));
    return { name, words, unit, value, score: weight * held };
  });
  return { score: parts.reduce((sum, part) => sum + part.score, 0), parts };
}

const logDensity = (x: number, [mean, sd]: readonly [number, number]): number =>
  -0.5 * ((x - mean) / sd) ** 2 - Math.log(sd);
