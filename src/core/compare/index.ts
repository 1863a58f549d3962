export { type ComparedSide, compareFaces } from './compareFaces.ts';
export { type DepthTarget, depthDifferences, depthTarget } from './depthDifferences.ts';
export {
  type Depths,
  type DepthsJob,
  depthsOf,
  type OtherDepths,
  otherDepths,
  type SharedDepths,
  sharedDepths,
} from './depths.ts';
export {
  differenceColour,
  differenceScale,
  easyEnds,
  endOfScale,
  hex,
  levelGrey,
  type Rgb,
  scaleEnd,
} from './differenceColours.ts';
export { inImpressionSense } from './differenceMap.ts';
export { compareFigures } from './figures.ts';
export { measureGroove } from './groove.ts';
export { levelOfDetection } from './levelOfDetection.ts';
export { type ChainEnd, isTranslucent, type Material, type Range } from './materials.ts';
export { movePoints, type SubjectMotion, subjectMotion } from './motion.ts';
export { type Line, section } from './section.ts';
export { significantCells } from './significance.ts';
export * from './types.ts';
