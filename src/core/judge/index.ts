export { cllr, type KnownScores, log10LikelihoodRatio, rocArea } from './calibration.ts';
export { type Constellation, constellationDefaults, isOutside, type PlacedLandmark } from './constellation.ts';
export { calibrationName, judge } from './judge.ts';
export { type ComparedSubject, judgeTogether } from './judgeTogether.ts';
export type { Landmark } from './landmarks.ts';
export type { LineSection } from './marks/lineTypes.ts';
export { thisOrCopy } from './question.ts';
export type { Seen, SharedMark, Together } from './together.ts';
export * from './types.ts';
