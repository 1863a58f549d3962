export { designSize, imageLeftLevels, questionLevels, recipeAt, relationLevels, spacingLevels } from './factorial.ts';
export { makePair } from './makePair.ts';
export * from './types.ts';
