export * from './meetingEdges.ts';
export * from './ofOneSeal.ts';
export * from './overlaps.ts';
export * from './placeFragments.ts';
