import {
  type CardLanguage,
  diplomatic,
  expanded,
  type Transcription,
  teiWords,
  toLeiden,
  toTei,
} from '../../../core/read/index.ts';
import type { ScanEntry } from '../../state/document.ts';

type Named = Pick<ScanEntry, 'name' | 'title' | 'simulated'>;

export const fileStem = ({ name }: Pick<ScanEntry, 'name'>): string => `${name.replace(/\.[^.]+$/, '')}-legend`;

const sourceWords = ({ name, simulated }: Named): string =>
  `Read from the surface scan ${name}${simulated ? ', which is simulated' : ''}.`;

/** The transcription as a TEI document in EpiDoc's use, worded in the language of the card. */
export function teiFile(transcription: Transcription, scan: Named, language: CardLanguage, reader?: string): string {
  const w = teiWords[language];
  return toTei(transcription, {
    title: `${w.legend}: ${scan.title}`,
    sourceDescription: w.readFrom(scan.name, scan.simulated === true),
    ...{ reader, language },
  });
}

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
