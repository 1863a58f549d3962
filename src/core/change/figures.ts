import { agreementDefaults } from './agreement.ts';
import { causeDefaults } from './causes.ts';
import { changeDefaults } from './change.ts';
import { gridDefaults } from './commonGrid.ts';
import { limitDefaults } from './limits.ts';
import { lineMeanDefaults } from './lineMeans.ts';
import { lineShapeDefaults } from './lineShape.ts';
import { measureDefaults } from './measure.ts';
import { loneDefaults, noiseDefaults } from './noise.ts';
import { nuisanceDefaults } from './nuisance.ts';
import { regionDefaults } from './regions.ts';
import { registerDefaults } from './register.ts';
import { repeatDefaults } from './repeats.ts';
import { scaleDefaults } from './scales.ts';
import { scanCheckDefaults } from './scanCheck.ts';
import { sensitivityDefaults } from './sensitivity.ts';

/** The named figures and thresholds that a change is found by, each by the file it stands in. */
export const changeFigures = {
  agreement: agreementDefaults,
  cause: causeDefaults,
  change: changeDefaults,
  grid: gridDefaults,
  limit: limitDefaults,
  lineMean: lineMeanDefaults,
  lineShape: lineShapeDefaults,
  lone: loneDefaults,
  measure: measureDefaults,
  noise: noiseDefaults,
  nuisance: nuisanceDefaults,
  region: regionDefaults,
  register: registerDefaults,
  repeat: repeatDefaults,
  scale: scaleDefaults,
  scanCheck: scanCheckDefaults,
  sensitivity: sensitivityDefaults,
} as const;
