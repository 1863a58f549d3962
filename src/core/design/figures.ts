import { bandDefaults } from './legend/findBands.ts';
import { ringConfidence, ringWorths } from './legend/ringChoice.ts';
import { partDefaults } from './parts.ts';

/** The named figures and thresholds that legend, border, field and motif are found by, each by the file it stands in. */
export const designFigures = { band: bandDefaults, ringWorths, ringConfidence, parts: partDefaults } as const;
