export { type FitSide, fitFaces } from './fit.ts';
export * from './types.ts';
export { applyWarp, noWarp, warpParameters } from './warp.ts';
