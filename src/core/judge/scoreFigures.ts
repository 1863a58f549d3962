import type { FeatureFigures, RivalName } from './scoreModel.ts';

/**
 * Figures of the score, by `npm run bench -- evidence`, from 288 simulated pairs of one matrix and 1148 of different ones; in the order of `featureReadings`. How the pairs
 * were made, and what they are not: docs/judge.md.
 */
export const scoreFigures: readonly FeatureFigures[] = [
  // places of letters and ornaments
  {
    same: [-3.242, 0.543, 0.421],
    against: {
      handCopy: { spread: [-1.657, -0.207, 0.438], weight: 0.343 },
      stockMotif: { spread: [-1.944, -0.491, 0.486], weight: 0.167 },
    },
  },
  // landmarks outside their error ellipses
  {
    same: [-2.436, -0.982, 0.882],
    against: {
      handCopy: { spread: [1.022, -2.612, 1.019], weight: 0.444 },
      stockMotif: { spread: [0.845, -4.394, 1.079], weight: 1.032 },
    },
  },
  // landmarks seen on both
  {
    same: [2.769, -1.959, 1.202],
    against: {
      handCopy: { spread: [1.643, -1.937, 1.181], weight: 0 },
      stockMotif: { spread: [-0.243, -0.458, 0.616], weight: 0.356 },
    },
  },
  // scatter of the cells
  {
    same: [-3.454, 0.842, 0.384],
    against: {
      handCopy: { spread: [-1.971, 0.029, 0.419], weight: 0.207 },
      stockMotif: { spread: [-2.392, -0.151, 0.439], weight: 0 },
    },
  },
  // correlation of the cells
  {
    same: [1.439, -0.63, 0.273],
    against: {
      handCopy: { spread: [1.006, -0.375, 0.202], weight: 0.335 },
      stockMotif: { spread: [0.723, -0.061, 0.242], weight: 0.3 },
    },
  },
  // share of congruent cells
  {
    same: [3.235, -2.216, 1.03],
    against: {
      handCopy: { spread: [0.739, -1.575, 1.071], weight: 0.093 },
      stockMotif: { spread: [-0.125, -0.229, 0.492], weight: 0.526 },
    },
  },
  // share of congruent cells where a legend stands
  {
    same: [3.344, -2.478, 1.163],
    against: {
      handCopy: { spread: [0.414, -1.758, 1.274], weight: 0.332 },
      stockMotif: { spread: [-1.614, -0.279, 1.336], weight: 0.385 },
    },
  },
  // legend against motif
  {
    same: [0.102, -1.196, 1.849],
    against: {
      handCopy: { spread: [-0.878, -0.139, 1.347], weight: 0 },
      stockMotif: { spread: [-3.447, 0.472, 1.915], weight: 0.25 },
    },
  },
  // fine relief
  {
    same: [1.075, -0.293, 0.213],
    against: {
      handCopy: { spread: [0.681, 0.047, 0.124], weight: 0.239 },
      stockMotif: { spread: [0.863, 0.007, 0.181], weight: 0 },
    },
  },
];

export const scoreOffset: Readonly<Record<RivalName, number>> = { handCopy: 0.033, stockMotif: 0.935 };
