import { type RingSigns, ringSignNames } from './ringSigns.ts';

/**
 * What each sign is worth: coefficients of a conditional logit (McFadden 1974), the choice of one ring among all that a face offers,
 * learned from generated faces whose letters' places are known; tests/bench/bandRows holds the rows and recomputes them.
 */
export const ringWorths: RingSigns = {
  edges: 2.601,
  innerLine: 1.894,
  explained: 10.623,
  longWaves: -4.391,
  broadWaves: -5.446,
  upright: 6.868,
  along: 8.762,
  overOuterEdge: -1.093,
  overInnerEdge: -2.525,
  even: 1.621,
};

/** Of the rings that were chosen there, the share that was right, by their worth: 1/(1 + exp(slope · (half − worth))). */
export const ringConfidence = { half: 10.991, slope: 0.7782 };

/** Σ of what the signs are worth: the ring of the greatest is taken for the legend. */
export const worthOf = (signs: RingSigns): number =>
  ringSignNames.reduce((sum, name) => sum + ringWorths[name] * signs[name], 0);

export const confidenceOf = (worth: number): number =>
  1 / (1 + Math.exp(ringConfidence.slope * (ringConfidence.half - worth)));
