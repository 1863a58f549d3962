import { useMemo } from 'react';
import type { Card, CardLanguage } from '../../../core/read/index.ts';
import type { FaceView } from '../../../workers/browser/protocol.ts';
import type { ScanEntry } from '../../state/document.ts';
import { useDocument } from '../../state/store.ts';
import { cardFaults, cardFrom, draftNow, languageOf, prefilled } from '../state/card.ts';
import { useScan } from '../state/current.ts';

export interface CardNow {
  readonly scan: ScanEntry;
  readonly face: FaceView;
  /** What stands in each field: written by the user, or taken from the scan. */
  readonly fields: Readonly<Record<string, string>>;
  readonly card: Card;
  readonly language: CardLanguage;
  readonly faults: ReturnType<typeof cardFaults>;
}

/** The card of the scan that is read. With faults it can be shown but not handed on. */
export function useCard(): CardNow | null {
  const { scan, face, legend } = useScan();
  const draft = useDocument((document) => (scan ? document.read.cards[scan.id] : undefined));
  const { transcription } = legend;
  return useMemo(() => {
    if (!scan || !face) return null;
    const card = cardFrom(draft ?? {}, scan, face, transcription) as Card;
    return {
      scan,
      face,
      fields: { ...prefilled(scan, face), ...draftNow(draft ?? {}) },
      card,
      language: languageOf(draft ?? {}),
      faults: cardFaults(card),
    };
  }, [scan, face, draft, transcription]);
}
