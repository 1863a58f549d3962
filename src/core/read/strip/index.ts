export * from './composite.ts';
export { type FacingArc, facingArcs } from './facingArcs.ts';
export type { CrossFound } from './initialCross.ts';
export * from './letterSense.ts';
export { type Midline, middleDepth } from './midline.ts';
export * from './readStrip.ts';
export * from './stack.ts';
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
