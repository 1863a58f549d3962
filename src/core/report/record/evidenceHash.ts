import { findingFigures } from '../../judge/index.ts';
import { sha256 } from '../../scan/index.ts';

/** SHA-256 of every threshold and figure that a finding follows from, as JSON: two records with one hash were judged alike. */
export const evidenceHash = (): string =>
  sha256(Uint8Array.from(JSON.stringify(findingFigures), (c) => c.charCodeAt(0)));
