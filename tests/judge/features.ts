import type { Fit } from '../../src/core/fit/index.ts';
import type { PlacedLandmark } from '../../src/core/judge/constellation.ts';
import type { Features } from '../../src/core/judge/features.ts';

/** A landmark that lies where it should. */
const landmark: PlacedLandmark = {
  x: 1,
  y: 2,
  dx: 0.02,
  dy: 0,
  alone: [0.02, 0],
  aloneSmooth: [0.01, 0],
  ellipse: { majorMm: 0.05, minorMm: 0.03, deg: 20 },
  correlation: 0.9,
};

/** Features of a pair that agrees well, with changes. */
export const featuresWith = (changes: Partial<Features> = {}): Features => ({
  agreement: { correlation: 0.9, topographyDifference: 0.2, cells: 20_000 },
  bands: [{ fromMm: 0.3, toMm: 0.6, correlation: 0.8 }],
  fineCorrelation: 0.8,
  cells: { compared: 40, congruent: 38, cells: [] },
  cellCorrelation: 0.9,
  scatterMm: 0.02,
  spacingMm: 0.1,
  resolution: 1 / 300,
  congruentShare: 0.95,
  outerShare: 0.95,
  innerShare: 0.95,
  outerCompared: 18,
  constellation: {
    landmarks: new Array(44).fill(landmark),
    found: 48,
    unseen: [],
    oneScaleMm: 0.04,
    smoothMm: 0.03,
    outside: 0.05,
  },
  ...changes,
});

/** A sound fit, with changes. */
export const fitWith = (changes: Partial<Fit> = {}): Fit => ({
  found: true,
  chance: { location: 5, spread: 0.5, log10P: -20, mirror: 5 },
  doubts: [],
  chosen: 'oneScale',
  turnedOver: true,
  mirrored: false,
  overlap: 0.9,
  score: 0.9,
  rivalScore: 0,
  significance: 30,
  models: [],
  rotationSdDeg: 0.01,
  translationSdMm: 0.002,
  covariance: new Float64Array(49),
  degenerate: [],
  rivalTurns: [],
  ...changes,
});
