export { type Body, bodyOf, reverseWinding } from './body.ts';
export { type ExcludedRegion, keptShare, withoutRegions } from './exclude.ts';
export { faceFigures } from './figures.ts';
export { insidePolygon } from './fill.ts';
export { faceCandidates, findFace } from './find.ts';
export { findOutline } from './outline.ts';
export { scaleFace } from './scale.ts';
export { longSide } from './size.ts';
export * from './types.ts';
