import type { FeatureFigures, RivalName } from './scoreModel.ts';

/**
 * Figures of the score, by `npm run bench -- evidence`, from 66 simulated pairs of one matrix and 91 of different ones; in the order of `featureReadings`. How the pairs
 * were made, and what they are not: docs/judge.md.
 */
export const scoreFigures: readonly FeatureFigures[] = [
  // places of letters and ornaments
  {
    same: [-3.236, 0.393],
    against: {
      handCopy: { spread: [-1.747, 0.348], weight: 0.59 },
      stockMotif: { spread: [-2.317, 0.585], weight: 0.219 },
    },
  },
  // landmarks outside their error ellipses
  {
    same: [-2.513, 0.882],
    against: {
      handCopy: { spread: [0.839, 1.31], weight: 1.392 },
      stockMotif: { spread: [-0.109, 1.679], weight: 1.21 },
    },
  },
  // landmarks seen on both
  {
    same: [2.486, 1.118],
    against: {
      handCopy: { spread: [1.276, 1.133], weight: 0 },
      stockMotif: { spread: [-0.202, 0.576], weight: 0.598 },
    },
  },
  // scatter of the cells
  {
    same: [-3.345, 0.394],
    against: {
      handCopy: { spread: [-1.973, 0.395], weight: 0.35 },
      stockMotif: { spread: [-2.678, 0.321], weight: 0 },
    },
  },
  // correlation of the cells
  {
    same: [1.346, 0.31],
    against: {
      handCopy: { spread: [0.933, 0.226], weight: 0.632 },
      stockMotif: { spread: [0.681, 0.175], weight: 0.668 },
    },
  },
  // share of congruent cells
  {
    same: [2.893, 1.13],
    against: {
      handCopy: { spread: [0.208, 0.975], weight: 0.708 },
      stockMotif: { spread: [0.013, 0.527], weight: 0.591 },
    },
  },
  // share of congruent cells where a legend stands
  {
    same: [2.95, 1.336],
    against: {
      handCopy: { spread: [0.022, 1.368], weight: 0.413 },
      stockMotif: { spread: [-1.615, 1.306], weight: 1.232 },
    },
  },
  // fine relief
  {
    same: [1.029, 0.209],
    against: {
      handCopy: { spread: [0.669, 0.102], weight: 0.628 },
      stockMotif: { spread: [0.889, 0.209], weight: 0.026 },
    },
  },
];

export const scoreOffset: Readonly<Record<RivalName, number>> = { handCopy: -0.082, stockMotif: 0.242 };
