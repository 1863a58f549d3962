import type { Transcription } from '../../../core/read/index.ts';
import { emptyLegend, type Legend, type ReadDocument, type RingEdits } from '../../state/readDocument.ts';
import { act, documentNow } from '../../state/store.ts';
import { type Pen, type Penned, replacedPlaces } from './pen.ts';
import { setRead } from './readStore.ts';

/** One act on what the reading room keeps. */
export function actOnRead(words: string, change: Partial<ReadDocument>, merge: string | null = null): void {
  act(words, (document) => ({ ...document, read: { ...document.read, ...change } }), merge);
}

export const legendNow = (scanId: string): Legend => documentNow().read.legends[scanId] ?? emptyLegend;

export function actOnLegend(
  scanId: string,
  words: string,
  change: (legend: Legend) => Partial<Legend>,
  merge: string | null = null,
): void {
  const legend = legendNow(scanId);
  const legends = { ...documentNow().read.legends, [scanId]: { ...legend, ...change(legend) } };
  actOnRead(words, { legends }, merge);
}

/** Moves an edge or the start of a ring. `place`: where each letter then stands on the strip, in every reading of the legend. */
export function editRing(
  scanId: string,
  ring: number,
  words: string,
  edits: RingEdits,
  place?: (alongMm: number) => number,
  merge: string | null = null,
): void {
  const taken = (transcription: Transcription): Transcription =>
    place ? { ...transcription, items: [...replacedPlaces(transcription.items, ring, place)] } : transcription;
  actOnLegend(
    scanId,
    words,
    ({ rings, transcription, aside }) => ({
      rings: { ...rings, [ring]: { ...rings[ring], ...edits } },
      transcription: taken(transcription),
      ...(aside && { aside: aside.map((each) => ({ ...each, transcription: taken(each.transcription) })) }),
    }),
    merge,
  );
}

export function transcribe(
  scanId: string,
  words: string,
  transcription: Transcription,
  pen?: Pen,
  merge?: string,
): void {
  if (transcription !== legendNow(scanId).transcription)
    actOnLegend(scanId, words, () => ({ transcription }), merge ?? null);
  if (pen) setRead({ pen });
}

export const transcribed = (scanId: string, words: string, { transcription, pen }: Penned): void =>
  transcribe(scanId, words, transcription, pen);
