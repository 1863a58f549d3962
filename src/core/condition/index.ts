export { judgeSurfaces, ofTwoDies, type WearAndDamage } from './condition.ts';
export type { LineSection } from './marks/lines/lineTypes.ts';
export type { SecondStrike } from './marks/secondStrike.ts';
export { type ComparedSubject, judgeTogether } from './states/conditionTogether.ts';
export type { SharedMark } from './states/joinMarks.ts';
export { stateOfTwoMatrices } from './states/state.ts';
export { stateDefaults } from './states/tellingMarks.ts';
export type { AccidentCause, Together } from './states/together.ts';
export * from './types.ts';
