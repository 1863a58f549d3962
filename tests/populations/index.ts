export { designSize, questionLevels, recipeAt, relationLevels } from './factorial.ts';
export { makePair } from './makePair.ts';
export * from './types.ts';
