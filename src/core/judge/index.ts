export { cllr, type KnownScores, log10LikelihoodRatio, rocArea } from './calibration.ts';
export { constellationDefaults, isOutside } from './constellation.ts';
export { judgeFigures } from './figures.ts';
export { evidenceDefaults, strengthDefaults } from './gates.ts';
export { judge } from './judge.ts';
export type { Landmark } from './landmarks.ts';
export { heldOut } from './population.ts';
export { type ClaimCode, leastNamed } from './question.ts';
export * from './types.ts';
