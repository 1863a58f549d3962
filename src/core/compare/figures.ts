import { compareDefaults } from './compareFaces.ts';
import { depthDefaults } from './depthDifferences.ts';
import { grooveDefaults } from './groove.ts';
import { blocksAcross } from './growth.ts';
import { materialFigures } from './materials.ts';
import { sectionDefaults } from './section.ts';
import { falseDiscoveryRate } from './significance.ts';

/** The named figures and thresholds that differences, size and sections are measured by, each by the file it stands in. */
export const compareFigures = {
  blocksAcross,
  compare: compareDefaults,
  depth: depthDefaults,
  falseDiscoveryRate,
  groove: grooveDefaults,
  materialFigures,
  section: sectionDefaults,
} as const;
