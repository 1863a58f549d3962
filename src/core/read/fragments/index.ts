export * from './meetingEdges.ts';
export * from './ofOneSeal.ts';
export * from './placeFragments.ts';
