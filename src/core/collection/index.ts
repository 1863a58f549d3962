export type { Agreement } from './agreement.ts';
export type { Turning } from './code.ts';
export { indexFace } from './indexFace.ts';
export { globalBytes, indexVersion } from './pack.ts';
export { agreement, type Candidate, findCandidates, rank, type Why } from './rank.ts';
export { type GlobalTable, openGlobals, type Shortlisted, shortlist } from './shortlist.ts';
export type { FaceIndex } from './types.ts';
