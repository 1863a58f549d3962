import { useMemo } from 'react';
import { letterMm, useInk, usePlaces, useRing, useScan } from '../state/current.ts';
import { type Ink, placeAfter } from '../state/nextLetter.ts';
import type { Desk } from './typing.ts';

/** What writing on the strip of the chosen ring needs; null where no strip is laid out. */
export function useDesk(): Desk | null {
  const { scan } = useScan();
  const ring = useRing();
  const places = usePlaces();
  const ink = useInk();
  const scanId = scan?.id;
  return useMemo((): Desk | null => {
    if (!scanId || !ring) return null;
    const high = letterMm(ring.order.band);
    const relief: Ink = { columns: ink, pitchMm: places?.grid.pitch ?? 0.1, letterMm: high };
    return {
      ...{ scanId, ring: ring.ring, advanceMm: 0.8 * high },
      nextMm: (from, before = 'E') => placeAfter(relief, from, before, 'E'),
      placeMm: (beforeMm, before, text, spaced) => placeAfter(relief, beforeMm, before, text, spaced),
    };
  }, [scanId, ring, ink, places]);
}
