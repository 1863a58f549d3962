import { useMemo } from 'react';
import { letterMm, useInk, usePlaces, useRing, useScan } from '../state/current.ts';
import { nextLetterMm } from '../state/nextLetter.ts';
import type { Desk } from './typing.ts';

/** What writing on the strip of the chosen ring needs; null where no strip is laid out. */
export function useDesk(): Desk | null {
  const { scan } = useScan();
  const ring = useRing();
  const places = usePlaces();
  const ink = useInk();
  const scanId = scan?.id;
  return useMemo(() => {
    if (!scanId || !ring) return null;
    const high = letterMm(ring.order.band);
    const nextMm = (from: number): number =>
      ink && places ? nextLetterMm(ink, places.grid.pitch, from, high) : from + 0.8 * high;
    return { scanId, ring: ring.ring, advanceMm: 0.8 * high, nextMm };
  }, [scanId, ring, ink, places]);
}
