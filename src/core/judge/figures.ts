import { stateDefaults } from '../condition/index.ts';
import { chanceDefaults } from '../fit/index.ts';
import { clearDefaults } from './clear.ts';
import { evidenceDefaults, strengthDefaults } from './gates.ts';
import { landmarkDefaults } from './landmarks.ts';
import { measureDefaults } from './measure.ts';
import { rivalDefaults } from './rivals.ts';
import { tileDefaults } from './tiles.ts';

/** Every threshold and figure that a finding follows from, by the file it stands in. */
export const findingFigures = {
  chance: chanceDefaults,
  clear: clearDefaults,
  gates: evidenceDefaults,
  landmarks: landmarkDefaults,
  measure: measureDefaults,
  rivals: rivalDefaults,
  states: stateDefaults,
  strength: strengthDefaults,
  tiles: tileDefaults,
} as const;
