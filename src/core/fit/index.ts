export { startByHand } from './byHand.ts';
export { type Chance, chanceDefaults, chanceOf, reachOf } from './chance.ts';
export { type FitSide, fitFaces, fitSearched, searchedAgain, searchedMotion, searchFaces } from './fit.ts';
export { chosenModel, modelOf } from './modelSelection.ts';
export { type AlignedRelief, alignRelief, faceMotion, resampleGrid, unbend } from './resample.ts';
export { overlapsAt, type Searched } from './search.ts';
export * from './types.ts';
export { applyWarp, noWarp, warpParameters } from './warp.ts';
