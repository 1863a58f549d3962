import type { FeatureFigures, RivalName } from './scoreModel.ts';

/**
 * Figures of the score, in the order of `featureReadings`: 500 simulated pairs of one matrix and 2032 of different ones.
 * By `npm run bench -- evidence` and `figures`; how the pairs were made, and what they are not: docs/judge.md.
 */
export const scoreFigures: readonly FeatureFigures[] = [
  // places of letters and ornaments
  {
    same: [-3.259, 0.489, 0.403],
    against: {
      handCopy: { spread: [-1.671, -0.175, 0.427], weight: 0.374 },
      stockMotif: { spread: [-2.033, -0.29, 0.498], weight: 0.173 },
    },
  },
  // landmarks outside their error ellipses
  {
    same: [-3.293, -0.007, 0.757],
    against: {
      handCopy: { spread: [0.738, -2.303, 0.989], weight: 0.4 },
      stockMotif: { spread: [0.302, -2.809, 0.945], weight: 0.734 },
    },
  },
  // landmarks seen on both
  {
    same: [2.819, -1.739, 1.164],
    against: {
      handCopy: { spread: [1.655, -2.02, 1.154], weight: 0 },
      stockMotif: { spread: [-0.21, -0.272, 0.727], weight: 0.031 },
    },
  },
  // scatter of the cells
  {
    same: [-3.444, 0.741, 0.377],
    against: {
      handCopy: { spread: [-1.981, 0.018, 0.415], weight: 0.099 },
      stockMotif: { spread: [-2.408, 0.14, 0.471], weight: 0 },
    },
  },
  // correlation of the cells
  {
    same: [1.442, -0.631, 0.268],
    against: {
      handCopy: { spread: [0.981, -0.34, 0.2], weight: 0.419 },
      stockMotif: { spread: [0.708, -0.064, 0.24], weight: 0.268 },
    },
  },
  // share of congruent cells
  {
    same: [3.248, -2.061, 1.014],
    against: {
      handCopy: { spread: [0.689, -1.401, 1.071], weight: 0.074 },
      stockMotif: { spread: [-0.146, -0.351, 0.5], weight: 0.481 },
    },
  },
  // share of congruent cells where a legend stands
  {
    same: [3.398, -2.212, 1.148],
    against: {
      handCopy: { spread: [0.372, -1.634, 1.33], weight: 0.255 },
      stockMotif: { spread: [-1.735, 0.371, 1.294], weight: 0.477 },
    },
  },
  // legend against motif
  {
    same: [0.174, -0.893, 1.786],
    against: {
      handCopy: { spread: [-0.9, -0.181, 1.375], weight: 0.042 },
      stockMotif: { spread: [-3.655, 1.582, 1.967], weight: 0 },
    },
  },
  // fine relief
  {
    same: [1.073, -0.297, 0.21],
    against: {
      handCopy: { spread: [0.675, 0.034, 0.127], weight: 0.084 },
      stockMotif: { spread: [0.842, -0.019, 0.181], weight: 0 },
    },
  },
];

export const scoreOffset: Readonly<Record<RivalName, number>> = { handCopy: 0.076, stockMotif: 0.941 };
