import { type RingSigns, ringSignNames } from './ringSigns.ts';

/**
 * What each sign is worth: coefficients of a conditional logit (McFadden 1974), the choice of one ring among all that a face offers,
 * learned from generated faces whose letters' places are known; tests/bench/bandRows holds the rows and recomputes them.
 */
export const ringWorths: RingSigns = {
  edges: 2.37,
  innerLine: 1.683,
  explained: 10.31,
  longWaves: -4.529,
  broadWaves: -7.348,
  upright: 5.066,
  along: 10.402,
  overOuterEdge: -1.833,
  overInnerEdge: -2.318,
  even: 1.698,
};

/** Of the rings that were chosen there, the share that was right, by their worth: 1/(1 + exp(slope · (half − worth))). */
export const ringConfidence = { half: 11.019, slope: 0.7524 };

/** Σ of what the signs are worth: the ring of the greatest is taken for the legend. */
export const worthOf = (signs: RingSigns): number =>
  ringSignNames.reduce((sum, name) => sum + ringWorths[name] * signs[name], 0);

export const confidenceOf = (worth: number): number =>
  1 / (1 + Math.exp(ringConfidence.slope * (ringConfidence.half - worth)));
