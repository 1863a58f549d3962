import type { Features } from './features.ts';
import type { RivalName } from './types.ts';

/**
 * A feature, as it is weighed, in one population: its mean for scans of the usual fineness, how the mean changes as they
 * get coarser (per unit of `coarseness`), and its standard deviation.
 */
export type Spread = readonly [mean: number, slope: number, sd: number];

/** How coarse the coarser scan is: ln(point spacing · 150 / size of the face), held within −1 and 1.2; 0 is 0.2 mm on 30 mm. */
export const coarseness = ({ resolution }: Pick<Features, 'resolution'>): number =>
  Math.max(-1, Math.min(1.2, Math.log(150 * (resolution || 1 / 150))));

export type { RivalName } from './types.ts';

/** The rivals of the score, in the order in which they are weighed. */
export const rivals: readonly RivalName[] = ['handCopy', 'stockMotif'];

/** One feature: how it is read, and how it is made normal. */
export interface FeatureReading {
  readonly name: string;
  readonly words: string;
  readonly unit: 'mm' | '';
  /** The number as it is printed, and as it is weighed. */
  readonly plain: (features: Features) => number;
  readonly weighed: (plain: number) => number;
}

/** A feature's spread over pairs of one matrix and over each rival's, and its weight against each. */
export interface FeatureFigures {
  readonly same: Spread;
  readonly against: Readonly<Record<RivalName, { readonly spread: Spread; readonly weight: number }>>;
}

const logit = (share: number): number => Math.log((share + 0.02) / (1.02 - share));
const fisher = (correlation: number): number => Math.atanh(Math.max(-0.99, Math.min(0.99, correlation)));
const logMm = (mm: number): number => Math.log(mm + 0.01);

export const featureReadings: readonly FeatureReading[] = [
  {
    name: 'places of letters and ornaments',
    words:
      'how far a landmark lies (median) from where all others put it, after one scale and a smooth bending; a copyist moves each letter a little',
    unit: 'mm',
    plain: (f) => f.constellation.smoothMm,
    weighed: logMm,
  },
  {
    name: 'landmarks outside their error ellipses',
    words:
      'share of the landmarks that lie farther off than the relief around them and 20 µm (1 σ) of local flow of wax leave open (95 % ellipses)',
    unit: '',
    plain: (f) => f.constellation.outside,
    weighed: logit,
  },
  {
    name: 'landmarks seen on both',
    words: 'share of the landmarks of the reference that the subject shows at all; another legend has others',
    unit: '',
    plain: (f) => f.constellation.landmarks.length / f.constellation.found,
    weighed: logit,
  },
  {
    name: 'scatter of the cells',
    words: 'how far the cells lie (median) from where one smooth fit puts them; a copyist does not repeat every stroke',
    unit: 'mm',
    plain: (f) => f.scatterMm,
    weighed: logMm,
  },
  {
    name: 'correlation of the cells',
    words: 'median correlation of the relief inside the cells, each at its own best place',
    unit: '',
    plain: (f) => f.cellCorrelation,
    weighed: fisher,
  },
  {
    name: 'share of congruent cells',
    words: 'share of the compared cells that are congruent',
    unit: '',
    plain: (f) => f.congruentShare,
    weighed: logit,
  },
  {
    name: 'share of congruent cells where a legend stands',
    words:
      'the same over the outer part of the face alone, beyond 60 % of the way from the centre to the rim, whether or not letters are there; stock motifs were cut with many legends',
    unit: '',
    plain: (f) => f.outerShare,
    weighed: logit,
  },
  {
    name: 'legend against motif',
    words:
      'logit of the share of congruent cells where a legend stands less that over the rest of the face; a stock motif with another legend agrees in the middle only',
    unit: '',
    plain: (f) => logit(f.outerShare) - logit(f.innerShare),
    weighed: (difference) => difference,
  },
  {
    name: 'fine relief',
    words: 'correlation of the finest relief that both scans resolve',
    unit: '',
    plain: (f) => f.fineCorrelation,
    weighed: fisher,
  },
];

/** No single feature counts for or against more than this, in powers of ten. */
export const mostEach = 3;

/**
 * log₁₀ p(x | same)/p(x | rival) under normal densities for scans as coarse as these, held within ±`mostEach`; 0 for a
 * number that could not be had.
 */
export function heldRatio(weighed: number, coarse: number, same: Spread, rival: Spread): number {
  if (Number.isNaN(weighed)) return 0;
  const ratio = (logDensity(weighed, coarse, same) - logDensity(weighed, coarse, rival)) / Math.LN10;
  return Math.max(-mostEach, Math.min(mostEach, ratio));
}

const logDensity = (x: number, coarse: number, [mean, slope, sd]: Spread): number =>
  -0.5 * ((x - mean - slope * coarse) / sd) ** 2 - Math.log(sd);
