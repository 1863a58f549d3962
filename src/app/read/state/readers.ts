import { emptyTranscription } from '../../../core/read/index.ts';
import type { Legend, Reading } from '../../state/readDocument.ts';
import { notify } from '../../state/store.ts';
import { actOnLegend, legendNow } from './acts.ts';
import { setRead } from './readStore.ts';

const unnamed = 'a reader without a name';

/** What is written now, as a reading that can be put aside; none where nothing is written. */
const written = ({ transcription, reader }: Legend): readonly Reading[] =>
  transcription.items.length === 0 ? [] : [{ name: reader || unnamed, transcription }];

/** The strip empty again, for another to read without seeing what was read before. */
export function putAside(scanId: string): void {
  actOnLegend(scanId, 'Reading put aside', (legend) => ({
    transcription: { ...emptyTranscription, language: legend.transcription.language },
    reader: '',
    aside: [...(legend.aside ?? []), ...written(legend)],
  }));
  setRead({ comparedWith: null, pen: { at: 0, alongMm: 0 } });
}

/** A reading that was put aside to be written on; what was written until now takes its place. */
export function takeUp(scanId: string, index: number): void {
  actOnLegend(scanId, 'Reading taken up', (legend) => {
    const { aside = [] } = legend;
    const { name, transcription } = aside[index];
    return {
      transcription,
      reader: name,
      aside: [...aside.slice(0, index), ...written(legend), ...aside.slice(index + 1)],
    };
  });
  setRead({ comparedWith: null });
}

export function leaveOut(scanId: string, index: number): void {
  actOnLegend(scanId, 'Reading left out', ({ aside = [] }) => ({ aside: aside.filter((_, k) => k !== index) }));
  setRead({ comparedWith: null });
}

export function nameReader(scanId: string, reader: string): void {
  actOnLegend(scanId, 'Reader named', () => ({ reader }), `reader ${scanId}`);
}

/** A reading saved as TEI: written on where nothing is written yet, else put aside unseen. What is none is said. */
export async function openReading(scanId: string, file: File): Promise<void> {
  const { readingOfTei } = await import('./teiReading.ts');
  const read = readingOfTei(await file.text());
  if (typeof read === 'string') {
    notify(`${file.name}: ${read}`);
    return;
  }
  const { transcription, reader } = read;
  if (legendNow(scanId).transcription.items.length === 0) {
    actOnLegend(scanId, 'Reading opened', () => ({ transcription, reader: reader ?? '' }));
    return;
  }
  const name = reader ?? file.name;
  actOnLegend(scanId, 'Reading opened', ({ aside = [] }) => ({ aside: [...aside, { name, transcription }] }));
  notify(`The reading of ${file.name} was put aside and is not shown; it can be compared with yours, or taken up.`);
}
