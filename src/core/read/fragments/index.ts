export * from './meetingEdges.ts';
export * from './placeFragments.ts';
