import type { FeatureFigures, RivalName } from './scoreModel.ts';

/**
 * Figures of the score, by `npm run bench -- evidence`, from 353 simulated pairs of one matrix and 1408 of different ones; in the order of `featureReadings`. How the pairs
 * were made, and what they are not: docs/judge.md.
 */
export const scoreFigures: readonly FeatureFigures[] = [
  // places of letters and ornaments
  {
    same: [-3.245, 0.493, 0.412],
    against: {
      handCopy: { spread: [-1.673, -0.182, 0.428], weight: 0.325 },
      stockMotif: { spread: [-2.001, -0.31, 0.511], weight: 0.13 },
    },
  },
  // landmarks outside their error ellipses
  {
    same: [-3.296, 0.099, 0.782],
    against: {
      handCopy: { spread: [0.744, -2.36, 1.006], weight: 0.487 },
      stockMotif: { spread: [0.436, -3.642, 1.002], weight: 0.983 },
    },
  },
  // landmarks seen on both
  {
    same: [2.824, -1.844, 1.18],
    against: {
      handCopy: { spread: [1.713, -2.103, 1.134], weight: 0 },
      stockMotif: { spread: [-0.202, -0.443, 0.675], weight: 0.215 },
    },
  },
  // scatter of the cells
  {
    same: [-3.442, 0.753, 0.385],
    against: {
      handCopy: { spread: [-1.989, 0.051, 0.415], weight: 0.132 },
      stockMotif: { spread: [-2.433, 0.081, 0.437], weight: 0 },
    },
  },
  // correlation of the cells
  {
    same: [1.441, -0.623, 0.267],
    against: {
      handCopy: { spread: [1, -0.37, 0.198], weight: 0.381 },
      stockMotif: { spread: [0.702, -0.012, 0.24], weight: 0.06 },
    },
  },
  // share of congruent cells
  {
    same: [3.248, -2.161, 1.005],
    against: {
      handCopy: { spread: [0.782, -1.642, 1.082], weight: 0 },
      stockMotif: { spread: [-0.136, -0.304, 0.477], weight: 0.332 },
    },
  },
  // share of congruent cells where a legend stands
  {
    same: [3.381, -2.422, 1.122],
    against: {
      handCopy: { spread: [0.474, -1.863, 1.321], weight: 0.388 },
      stockMotif: { spread: [-1.667, -0.057, 1.327], weight: 0.558 },
    },
  },
  // legend against motif
  {
    same: [0.138, -1.117, 1.775],
    against: {
      handCopy: { spread: [-0.874, -0.208, 1.381], weight: 0.081 },
      stockMotif: { spread: [-3.625, 1.108, 2.049], weight: 0.171 },
    },
  },
  // fine relief
  {
    same: [1.075, -0.295, 0.211],
    against: {
      handCopy: { spread: [0.678, 0.035, 0.124], weight: 0.191 },
      stockMotif: { spread: [0.852, -0.001, 0.19], weight: 0 },
    },
  },
];

export const scoreOffset: Readonly<Record<RivalName, number>> = { handCopy: 0.108, stockMotif: 1.152 };
