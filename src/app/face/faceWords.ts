import type { UpFrom } from '../../core/read/index.ts';
import { outlineWords } from '../../core/report/words/index.ts';
import type { FaceView } from '../../workers/browser/protocol.ts';
import { number, percent, sizeMm } from '../look/numbers.ts';

/** What was found; of a positive the piece is measured, which may be larger than the seal on it. */
export function foundWords(face: FaceView): string {
  const { sense, senseConfidence, outline, filled, holes, noiseMm } = face;
  const engraved = sense === 'intaglio';
  return [
    `${engraved ? 'An engraved' : 'A raised'} face${senseConfidence < 0.8 ? ', though the file alone cannot tell' : ''}.`,
    `${engraved ? 'It' : 'The piece'} is ${outlineWords[outline.shape]}, ${sizeMm(outline.widthMm, outline.heightMm)};`,
    `${percent(filled)} of it is scanned${holes > 0 ? `, with ${holes} holes` : ''}.`,
    `The scan’s noise is about ${number(noiseMm * 1000, 0)}\u00a0µm.`,
  ].join(' ');
}

/** Why this way is up. */
export const upWords: Readonly<Record<UpFrom, string>> = {
  stated: 'Upright as you turned it.',
  longAxis: 'Upright by its long axis; which end is the top is a guess.',
  partner: 'Upright as the other one of the pair stands.',
  motif: 'Upright by its motif, which is alike on both sides of this axis; a guess.',
  cross: 'Upright by the sign at the beginning of its legend; a guess.',
  scan: 'As the scan lay: nothing says which way is up.',
};
