export { type FitSide, fitFaces } from './fit.ts';
export { type AlignedRelief, alignRelief, faceMotion, resampleGrid } from './resample.ts';
export * from './types.ts';
export { applyWarp, noWarp, warpParameters } from './warp.ts';
