export { judgeSurfaces, ofTwoDies } from './condition.ts';
export type { LineSection } from './marks/lines/lineTypes.ts';
export type { SecondStrike } from './marks/secondStrike.ts';
export { type ComparedSubject, judgeTogether } from './states/conditionTogether.ts';
export { stateDefaults, stateOfTwoMatrices } from './states/state.ts';
export type { Seen, SharedMark, Together } from './states/together.ts';
export * from './types.ts';
