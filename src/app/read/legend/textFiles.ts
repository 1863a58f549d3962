import { diplomatic, expanded, type Transcription, toLeiden, toTei } from '../../../core/read/index.ts';
import type { ScanEntry } from '../../state/document.ts';

type Named = Pick<ScanEntry, 'name' | 'title' | 'simulated'>;

export const fileStem = ({ name }: Pick<ScanEntry, 'name'>): string => `${name.replace(/\.[^.]+$/, '')}-legend`;

const sourceWords = ({ name, simulated }: Named): string =>
  `Read from the surface scan ${name}${simulated ? ', which is simulated' : ''}.`;

/** The transcription as a TEI document in EpiDoc's use. */
export const teiFile = (transcription: Transcription, scan: Named, reader?: string): string =>
  toTei(transcription, {
    title: `Legend: ${scan.title}`,
    publication: 'Unpublished working transcription.',
    sourceDescription: sourceWords(scan),
    reader,
  });

/** The same as plain text: Leiden print, as it stands, in full, translation and apparatus. */
export function leidenFile(transcription: Transcription, scan: Named): string {
  const { text, apparatus } = toLeiden(transcription);
  return [
    scan.title,
    '',
    text,
    '',
    `as it stands: ${diplomatic(transcription)}`,
    `in full: ${expanded(transcription)}`,
    ...(transcription.translation ? [`translation: ${transcription.translation.text}`] : []),
    '',
    ...apparatus,
    '',
    sourceWords(scan),
    '',
  ].join('\n');
}
