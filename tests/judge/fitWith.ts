import type { Fit } from '../../src/core/fit/index.ts';

/** A sound fit, with changes. */
export const fitWith = (changes: Partial<Fit> = {}): Fit => ({
  found: true,
  doubts: [],
  chosen: 'oneScale',
  turnedOver: true,
  mirrored: false,
  overlap: 0.9,
  score: 0.9,
  rivalScore: 0,
  significance: 30,
  chance: { location: 4, spread: 0.5, log10P: -20, mirror: 5 },
  models: [],
  rotationSdDeg: 0.01,
  translationSdMm: 0.002,
  covariance: new Float64Array(49),
  degenerate: [],
  rivalTurns: [],
  ...changes,
});
