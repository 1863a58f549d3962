export { designFigures } from './figures.ts';
export {
  type Band,
  type BandDoubt,
  type BandFace,
  bandInside,
  movedBand,
  parallelAt,
  readingGrid,
  readingX,
  withEdges,
} from './legend/band.ts';
export { type BandShape, resample } from './legend/baseCurve.ts';
export { findLegendBand, findLegendBands } from './legend/findBands.ts';
export { capitalsIn, type LetterSense, letterSenses } from './letters/capitalTemplates.ts';
export { letterCourse, likelihoodExplained } from './letters/letterCourse.ts';
export { correlation, margin, rows, type Template, unit } from './letters/template.ts';
export {
  type FaceZones,
  findZones,
  labelAt,
  rememberedZones,
  rememberZones,
  type ZoneName,
  zoneNames,
} from './parts.ts';
