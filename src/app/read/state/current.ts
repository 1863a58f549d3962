import { useMemo } from 'react';
import { type Band, withEdges } from '../../../core/design/index.ts';
import { faceFromStrip, type LookInput, type Strip, stripFromFace, type View } from '../../../core/read/index.ts';
import type { FaceView } from '../../../workers/browser/protocol.ts';
import type { FoundBand, ReadSource, StripOrder, StripPlaces } from '../../../workers/browser/readingProtocol.ts';
import { gridOfPicture } from '../../saved/grids.ts';
import { blobOf } from '../../state/bytes.ts';
import { keyOf, type ScanEntry, scanById } from '../../state/document.ts';
import { emptyLegend, type Legend, type RingEdits } from '../../state/readDocument.ts';
import { useFace, usePair } from '../../state/select.ts';
import { useDocument, useStore } from '../../state/store.ts';
import { uprightOf } from '../../state/upright.ts';
import { orderOf } from '../../state/work.ts';
import { allLooks, lookNamed, withLamp } from './looks.ts';
import { type SlotName, type Slots, useRead } from './readStore.ts';

/** The scan that is read: the one chosen, else the subject, else the reference. Stacked, always the reference. */
export function useScanId(): string | null {
  const chosen = useStore((state) => state.faceId);
  const stacked = useRead((state) => state.stacked);
  return useDocument((document) => {
    const known = scanById(document, chosen) ? chosen : null;
    return stacked ? document.referenceId : (known ?? document.subjectId ?? document.referenceId);
  });
}

export function useScan(): { scan: ScanEntry | undefined; face: FaceView | undefined; legend: Legend } {
  const id = useScanId();
  const scan = useDocument((document) => scanById(document, id));
  const face = useFace(id);
  const legend = useDocument((document) => (id === null ? undefined : document.read.legends[id])) ?? emptyLegend;
  return { scan, face, legend };
}

/** What the worker is to read: the scan's own bytes, or the reduced relief of a saved file. */
export function useSource(): ReadSource | null {
  const { scan, face } = useScan();
  return useMemo(() => (scan && face ? sourceOf(scan, face) : null), [scan, face]);
}

export function sourceOf(scan: ScanEntry, face: FaceView): ReadSource {
  const order = blobOf(scan.id) ? orderOf(scan) : null;
  if (order) return { scan: order };
  const { sense, outline, noiseMm } = face;
  return { stored: { key: `stored ${keyOf(scan)}`, sense, outline, noiseMm, relief: gridOfPicture(face.picture) } };
}

/** Every band of the scan's legend, as long as they belong to it. */
export function useBands(): readonly FoundBand[] {
  const { scan } = useScan();
  const shown = useRead((state) => state.slots.bands.shown);
  return scan && shown?.key === bandsKey(scan) ? shown.value : none;
}

const none: readonly FoundBand[] = [];

export const bandsKey = (scan: ScanEntry): string => `bands ${keyOf(scan)}`;

export interface RingNow {
  readonly ring: number;
  readonly found: FoundBand;
  readonly edits: RingEdits;
  readonly order: StripOrder;
}

/** The chosen ring with what the user moved. */
export function useRing(): RingNow | null {
  const bands = useBands();
  const { legend } = useScan();
  return useMemo(() => ringOf(bands, legend), [bands, legend]);
}

export function ringOf(bands: readonly FoundBand[], { ring: wanted, rings }: Legend): RingNow | null {
  const ring = Math.min(wanted, bands.length - 1);
  const found = bands[ring];
  if (!found) return null;
  const edits = rings[ring] ?? {};
  return { ring, found, edits, order: orderWith(found, edits) };
}

export function orderWith(found: FoundBand, edits: RingEdits): StripOrder {
  const { outerMm = found.band.outerMm, innerMm = found.band.innerMm } = edits;
  const touched = edits.outerMm !== undefined || edits.innerMm !== undefined;
  const band = touched && innerMm - outerMm > 0.2 ? withEdges(found.band, outerMm, innerMm) : found.band;
  const startDeg = edits.startDeg ?? found.startDeg;
  if (edits.facing) return { band, startDeg, facing: edits.facing };
  return { band, startDeg, facing: found.facing, ...(found.arcs.length > 1 && { arcs: found.arcs }) };
}

export const letterMm = (band: Band): number => band.lettersInnerMm - band.lettersOuterMm;

/** Height of the letters to which looks are set: of the ring, or what is usual. */
export function useLooks(): readonly LookInput[] {
  const own = useDocument((document) => document.read.looks);
  const ring = useRing();
  const height = ring ? Math.round(letterMm(ring.order.band) * 10) / 10 : 3;
  return useMemo(() => allLooks(own, height), [own, height]);
}

export function useLook(of: 'face' | 'strip'): LookInput {
  const looks = useLooks();
  const name = useDocument((document) => (of === 'face' ? document.read.faceLook : document.read.stripLook));
  return useMemo(() => lookNamed(name, looks), [name, looks]);
}

/** The look under the lamp where the reader has put it: as the picture is seen. */
export function useSeenLook(of: 'face' | 'strip'): LookInput {
  const look = useLook(of);
  const lamp = useDocument((document) => document.read.lamp);
  return useMemo(() => withLamp(look, lamp), [look, lamp]);
}

/** Turn that stands the face upright here as everywhere else, to a tenth of a degree, so that a fit that settles asks for no other picture. */
export function useReadTurnDeg(): number {
  const { face } = useScan();
  const pair = usePair();
  return face ? Math.round(10 * uprightOf(face, pair).turnDeg) / 10 : 0;
}

/** Degrees clockwise from 12 o'clock of the face as it was found ↔ from the top as it is seen here. */
export function useSeenDegrees(): { seen(deg: number): number; found(deg: number): number } {
  const turnDeg = useReadTurnDeg();
  const round = (deg: number): number => (Math.round(10 * (((deg % 360) + 360) % 360)) / 10) % 360;
  return { seen: (deg) => round(deg + turnDeg), found: (deg) => round(deg - turnDeg) };
}

/** How the face is shown: by itself an engraved one as its impression. */
export function useView(): View {
  const view = useDocument((document) => document.read.view);
  const { face } = useScan();
  return view ?? (face?.sense === 'intaglio' ? 'turnedOver' : 'asItIs');
}

export const sourceKey = (source: ReadSource | null): string =>
  source === null ? '' : 'scan' in source ? source.scan.key : source.stored.key;

/** The same without making the source. */
export function useSourceKey(): string {
  const { scan } = useScan();
  return scan ? (blobOf(scan.id) ? keyOf(scan) : `stored ${keyOf(scan)}`) : '';
}

/** The last result for the scan that is read now; another scan's is not shown. */
export function useShown<N extends SlotName>(name: N): Slots[N] | null {
  const key = useSourceKey();
  const shown = useRead((state) => state.slots[name].shown);
  return shown && key !== '' && shown.key.startsWith(key) ? (shown.value as Slots[N]) : null;
}

/** The strip that is laid out now, or the last one while another is worked out. */
export function usePlaces(): StripPlaces | null {
  const stacked = useRead((state) => state.stacked);
  const [strip, stack] = [useShown('strip'), useShown('stack')];
  return (stacked ? stack : strip)?.places ?? null;
}

export function useInk(): Float32Array | null {
  const stacked = useRead((state) => state.stacked);
  const [strip, stack] = [useShown('strip'), useShown('stack')];
  return (stacked ? stack : strip)?.ink ?? null;
}

/** The functions of a strip that need its places only. */
const asStrip = (places: StripPlaces): Strip => places as unknown as Strip;

export const faceOfStrip = (places: StripPlaces, column: number, row: number): [number, number] =>
  faceFromStrip(asStrip(places), column, row);
export const stripOfFace = (places: StripPlaces, x: number, y: number): { column: number; row: number } | null =>
  stripFromFace(asStrip(places), x, y);
