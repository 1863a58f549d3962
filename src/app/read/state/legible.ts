import type { LegiblePlaceView } from '../../../workers/browser/readingProtocol.ts';
import { documentNow } from '../../state/store.ts';
import { actOnRead, legendNow } from './acts.ts';
import { want } from './ask.ts';
import { type RingNow, sourceKey, useLooks, useRing, useScan, useSource } from './current.ts';
import { penAt } from './pen.ts';
import { setRead, useRead } from './readStore.ts';
import { ringKey } from './useReadWork.ts';

/** The places of the strip that is read, ranked by how legible they are, and the one that the reader is at. */
export interface LegibleNow {
  /** Null until they were asked for and told. */
  readonly places: readonly LegiblePlaceView[] | null;
  /** Of them, from 0, the clearest; null where the reader is at none. */
  readonly rank: number | null;
  /** Asks for them, and goes to the clearest as soon as they are told. */
  begin(): void;
  go(rank: number): void;
  /** The strip has the look again that it had before. */
  end(): void;
}

/** Null where no strip of one object is laid out. */
export function useLegible(): LegibleNow | null {
  const { scan } = useScan();
  const source = useSource();
  const ring = useRing();
  const looks = useLooks();
  const stacked = useRead((state) => state.stacked);
  const at = useRead((state) => state.place);
  const shown = useRead((state) => state.slots.legible.shown);
  if (!scan || !source || !ring || stacked) return null;
  const of = `${sourceKey(source)} ${ringKey(ring)} ${looks.map(({ name }) => name).join(', ')}`;
  const places = shown?.key === of ? shown.value : null;
  return {
    places,
    rank: at?.of === of ? at.rank : null,
    begin: () => {
      setRead({ place: { of, rank: 0, lookBefore: documentNow().read.stripLook } });
      want('legible', { key: of, ask: (reading, told) => reading.legible(source, ring.order, looks, told) });
      if (places) stand(scan.id, ring, places[0]);
    },
    go: (rank) => {
      setRead({ place: at && { ...at, rank } });
      if (places) stand(scan.id, ring, places[rank]);
    },
    end: () => {
      setRead({ place: null });
      if (at) actOnRead('Look changed', { stripLook: at.lookBefore, lamp: null }, lookOfPlace);
    },
  };
}

/** Looks taken from place to place are one act. */
const lookOfPlace = 'look of a place';

/** The pen at the beginning of a place, and the strip under the look that serves it best. */
export function stand(scanId: string, { ring }: RingNow, place: LegiblePlaceView | undefined): void {
  if (!place) return;
  setRead({ pen: penAt(legendNow(scanId).transcription.items, ring, place.fromMm) });
  actOnRead('Look changed', { stripLook: place.look, lamp: null }, lookOfPlace);
}
