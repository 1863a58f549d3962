export { cllr, type KnownScores, log10LikelihoodRatio, rocArea } from './calibration.ts';
export { calibrationName, judge } from './judge.ts';
export { thisOrCopy } from './question.ts';
export * from './types.ts';
