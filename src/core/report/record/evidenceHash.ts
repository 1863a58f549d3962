import { changeFigures } from '../../change/index.ts';
import { compareFigures } from '../../compare/index.ts';
import { conditionFigures } from '../../condition/index.ts';
import { designFigures } from '../../design/index.ts';
import { faceFigures } from '../../face/index.ts';
import { fitFigures } from '../../fit/index.ts';
import { judgeFigures } from '../../judge/index.ts';
import { sha256 } from '../../scan/index.ts';

/** The named figures and thresholds of every step from the face to the finding, by step and file. */
export const evidenceFigures = {
  face: faceFigures,
  design: designFigures,
  fit: fitFigures,
  compare: compareFigures,
  condition: conditionFigures,
  judge: judgeFigures,
} as const;

/**
 * SHA-256 of `evidenceFigures` as JSON, names sorted: two records with one hash and one build were judged alike; with
 * one build alone, too, unless the source was changed. The hash tells a change of a figure from one of the program.
 */
export const evidenceHash = (): string => hashOf(evidenceFigures);

/** The same for a change between two dates, which rests on face, fit and its own figures. */
export const changeHash = (): string => hashOf({ face: faceFigures, fit: fitFigures, change: changeFigures });

const hashOf = (figures: object): string =>
  sha256(Uint8Array.from(JSON.stringify(sorted(figures)), (c) => c.charCodeAt(0)));

/** The same value with the names of every object in order; numbers that JSON has no word for become text. */
function sorted(value: unknown): unknown {
  if (typeof value === 'number') return Number.isFinite(value) ? value : String(value);
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([name, part]) => [name, sorted(part)]),
  );
}
