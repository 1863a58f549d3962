export { type HandName, loadHands, type ReadHand } from './hands.ts';
export { type MotifName, motifNames } from './motifs/index.ts';
export { makePair } from './pair.ts';
export { type RecipeRanges, randomRecipe } from './recipe.ts';
export * from './types.ts';
