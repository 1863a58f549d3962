import { statedConfidence } from './asked.ts';
import { clearDefaults } from './clear.ts';
import { constellationDefaults } from './constellation.ts';
import { descentDefaults } from './descent.ts';
import { finePoints } from './finding.ts';
import { evidenceDefaults, strengthDefaults } from './gates.ts';
import { landmarkDefaults } from './landmarks.ts';
import { legendAnewDefaults } from './legendAnew.ts';
import { measureDefaults } from './measure.ts';
import { leastNamed } from './question.ts';
import { rivalDefaults } from './rivalDefaults.ts';
import { sizeBesideWearDefaults } from './sizeBesideWear.ts';
import { tileDefaults } from './tiles.ts';
import { whitenedDefaults } from './whitened.ts';

/** The named figures and thresholds that a finding follows from, each by the file it stands in. */
export const judgeFigures = {
  clear: clearDefaults,
  constellation: constellationDefaults,
  descent: descentDefaults,
  evidence: evidenceDefaults,
  finePoints,
  landmark: landmarkDefaults,
  leastNamed,
  legendAnew: legendAnewDefaults,
  measure: measureDefaults,
  rival: rivalDefaults,
  sizeBesideWear: sizeBesideWearDefaults,
  statedConfidence,
  strength: strengthDefaults,
  tile: tileDefaults,
  whitened: whitenedDefaults,
} as const;
