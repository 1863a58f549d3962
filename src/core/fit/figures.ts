import { judgeFitDefaults } from './assessment.ts';
import { signalDefaults } from './bandPassed.ts';
import { byHandDefaults } from './byHand.ts';
import { byHeightDefaults } from './byHeight.ts';
import { carriedDefaults } from './carried.ts';
import { chanceDefaults } from './chance.ts';
import { coarseDefaults } from './coarse.ts';
import { facesTriedDefaults } from './facesTried.ts';
import { fitDefaults } from './fit.ts';
import { overlapDefaults } from './overlaps.ts';
import { ownScaleDefaults } from './ownScale.ts';
import { searchDefaults } from './search.ts';
import { uncertaintyDefaults } from './uncertainty.ts';

/** The named figures and thresholds that a fit is sought, refined and believed by, each by the file it stands in. */
export const fitFigures = {
  byHand: byHandDefaults,
  byHeight: byHeightDefaults,
  carried: carriedDefaults,
  chance: chanceDefaults,
  coarse: coarseDefaults,
  facesTried: facesTriedDefaults,
  fit: fitDefaults,
  judgeFit: judgeFitDefaults,
  overlap: overlapDefaults,
  ownScale: ownScaleDefaults,
  search: searchDefaults,
  signal: signalDefaults,
  uncertainty: uncertaintyDefaults,
} as const;
