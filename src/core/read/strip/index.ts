export * from './composite.ts';
export { type FacingDoubt, type FacingOfArcs, facingArcs } from './facingArcs.ts';
export type { CrossFound } from './initialCross.ts';
export { type Among, amongJudged, type JudgedPair, pairsAmong } from './kin.ts';
export { type ComparedWitness, type Laid, laidOn } from './laid.ts';
export { type LegiblePlace, legiblePlaces } from './legiblePlaces.ts';
export * from './letterSense.ts';
export { type LikelyTop, likelyTop } from './likelyTop.ts';
export { type Midline, middleDepth } from './midline.ts';
export type { PairState } from './oneState.ts';
export type { FacingArc } from './pieces.ts';
export * from './readStrip.ts';
export * from './stack.ts';
export type { Kinship, WitnessStanding } from './standing.ts';
export { type RankedLook, rankedLooks, strokeContrast } from './strokeContrast.ts';
export {
  clockDeg,
  faceFromStrip,
  placeOnSeal,
  type SealPlace,
  type Strip,
  type StripPiece,
  stripFrame,
  stripFromFace,
  type UnrollOptions,
  unroll,
} from './unroll.ts';
