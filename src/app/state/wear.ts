import { useMemo } from 'react';
import type { ZoneName } from '../../core/design/index.ts';
import type { StatedResults } from '../../workers/browser/protocol.ts';
import { usePair } from './select.ts';
import { actOnView, setState, useDocument, useStore, type WornPart } from './store.ts';

export type DrawnArea = StatedResults['areas'][number];

export interface DrawnWear {
  readonly zones: StatedResults['zoneOutlines'];
  readonly areas: readonly DrawnArea[];
}

const nothing: DrawnWear = { zones: [], areas: [] };

/** What of the wear is drawn: of the zone under the hand in the list, else of the one that was asked for. */
export function useDrawnWear(): DrawnWear {
  const { comparison } = usePair();
  const pointed = useStore((state) => state.wearPointed);
  const asked = useDocument((document) => document.view.wear);
  const zone = pointed ?? asked;
  return useMemo(() => {
    const wear = comparison?.judgement?.wear ?? comparison?.stated;
    if (!wear || zone === null) return nothing;
    const here = (one: { zone: ZoneName }): boolean => zone === 'whole' || one.zone === zone;
    return { zones: wear.zoneOutlines.filter(here), areas: wear.areas.filter(here) };
  }, [comparison, zone]);
}

/** Draws the wear of a zone, or of the whole, until it is asked otherwise. */
export const askWear = (wear: ZoneName | null): void =>
  actOnView(wear === null ? 'States hidden' : 'States drawn', { wear }, 'wear');

export const pointAtZone = (wearPointed: ZoneName | null): void => setState({ wearPointed });
export const handOnPart = (wornPart: WornPart | null): void => setState({ wornPart });
