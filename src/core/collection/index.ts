export type { Agreement } from './agreement.ts';
export type { Turning } from './code.ts';
export { copiesFalseSupport, errorDefaults, type FalseSupport, thresholdsFor } from './groups/falseSupport.ts';
export { type GroupingOptions, groupObjects, regroup } from './groups/groupObjects.ts';
export type {
  Decision,
  DescentStep,
  Group,
  GroupedObject,
  Grouping,
  Known,
  Link,
  PartedGroups,
  StateStep,
  Thresholds,
} from './groups/types.ts';
export { imageLeft } from './imageLeft.ts';
export { indexFace } from './indexFace.ts';
export { globalBytes, indexVersion } from './pack.ts';
export { packPlaces } from './pairPlaces.ts';
export { agreement, type Candidate, findCandidates, type Why } from './rank.ts';
export { type GlobalTable, openGlobals, type Shortlisted, shortlist } from './shortlist.ts';
export type { FaceIndex } from './types.ts';
