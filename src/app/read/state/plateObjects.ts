import { useMemo } from 'react';
import type { FaceView } from '../../../workers/browser/protocol.ts';
import type { PlateOrder } from '../../../workers/browser/readingProtocol.ts';
import type { ScanEntry } from '../../state/document.ts';
import { usePair } from '../../state/select.ts';
import { useDocument, useStore } from '../../state/store.ts';
import { uprightOf } from '../../state/upright.ts';
import { sourceOf, useScan, useView } from './current.ts';

interface PlateObjects {
  /** The object that is read, as it is seen; null while its face is not there. */
  readonly one: PlateOrder | null;
  /** All whose faces are there, each in the impression's sense. */
  readonly all: readonly PlateOrder[];
}

/** What can stand on a plate, each upright and under its shelfmark, and whether any of it is simulated. */
export function usePlateObjects(): readonly [PlateObjects, boolean] {
  const { scan, face } = useScan();
  const view = useView();
  const scans = useDocument((document) => document.scans);
  const cards = useDocument((document) => document.read.cards);
  const faces = useStore((state) => state.faces);
  const pair = usePair();
  return useMemo(() => {
    const orderOf = (each: ScanEntry, its: FaceView, shown: PlateOrder['shown']['view']): PlateOrder => ({
      source: sourceOf(each, its),
      shown: { view: shown, turnDeg: Math.round(10 * uprightOf(its, pair).turnDeg) / 10 },
      kind: its.kind,
      outline: its.outline,
      shelfmark: cards[each.id]?.shelfmark,
    });
    const ready = scans.flatMap((each) => {
      const its = faces[each.id];
      return its?.at === 'ready' ? [[each, its.value] as const] : [];
    });
    const one = scan && face ? orderOf(scan, face, view) : null;
    const all = ready.map(([each, its]) => orderOf(each, its, its.sense === 'intaglio' ? 'turnedOver' : 'asItIs'));
    return [{ one, all }, scans.some(({ simulated }) => simulated === true)] as const;
  }, [scan, face, view, scans, cards, faces, pair]);
}
