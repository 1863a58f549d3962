import { useEffect } from 'react';
import { keyOf } from '../../state/document.ts';
import { want } from './ask.ts';
import {
  bandsKey,
  type RingNow,
  sourceKey,
  useReadTurnDeg,
  useRing,
  useScan,
  useSeenLook,
  useSource,
  useView,
} from './current.ts';
import { useFragments } from './fragments.ts';
import { useRead } from './readStore.ts';
import { useStackScans } from './useStackScans.ts';

/** Twice as large as it is, so that the words take little of a screen. */
const screenPlate = { printScale: 2, dpi: 200 } as const;

/** Asks for whatever the room shows and does not have yet. Called once, by the room. */
export function useReadWork(): void {
  const { scan } = useScan();
  const source = useSource();
  const slots = useRead((state) => state.slots);
  const leaf = useRead((state) => state.leaf);
  const stacked = useRead((state) => state.stacked);
  const faceLook = useSeenLook('face');
  const stripLook = useSeenLook('strip');
  const view = useView();
  const ring = useRing();
  const stackOf = useStackScans();
  const turnDeg = useReadTurnDeg();
  const faceKey = `${sourceKey(source)} ${view} ${turnDeg} ${JSON.stringify(faceLook)}`;
  const stripKey = `${sourceKey(source)} ${ringKey(ring)} ${JSON.stringify(stripLook)}`;
  const stackKey = `${stackOf?.key} ${ringKey(ring)} ${JSON.stringify(stripLook)}`;
  // Each question is named by its key, which changes whenever what it asks does.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the keys stand for the orders
  useEffect(() => {
    if (!scan || !source) return;
    want('face', { key: faceKey, ask: (reading, told) => reading.face(source, faceLook, { view, turnDeg }, told) });
  }, [faceKey, slots.face.state === null]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: as above
  useEffect(() => {
    if (!scan || !source) return;
    want('bands', { key: bandsKey(scan), ask: (reading, told) => reading.bands(source, told) });
  }, [scan && bandsKey(scan), source === null, slots.bands.state === null]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: as above
  useEffect(() => {
    if (!source || !ring || stacked) return;
    want('strip', { key: stripKey, ask: (reading, told) => reading.strip(source, ring.order, stripLook, told) });
  }, [stripKey, stacked, slots.strip.state === null]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: as above
  useEffect(() => {
    if (!stacked || !stackOf || !ring) return;
    const { reference, subjects } = stackOf;
    want('stack', {
      key: stackKey,
      ask: (reading, told) => reading.stack(reference, subjects, ring.order, stripLook, told),
    });
  }, [stackKey, stacked, slots.stack.state === null]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: as above
  useEffect(() => {
    if (leaf !== 'back' || !scan || !source) return;
    want('back', { key: `${sourceKey(source)} back`, ask: (reading, told) => reading.back(source, told) });
  }, [leaf, scan && keyOf(scan), source === null, slots.back.state === null]);
  const fragments = useFragments();
  const fragmentsKey = `${fragments?.reference.scan.key} ${fragments?.pieces.map((each) => each.scan.key).join(' ')} ${fragments?.language}`;
  // biome-ignore lint/correctness/useExhaustiveDependencies: as above
  useEffect(() => {
    if (leaf !== 'fragments' || !fragments || fragments.pieces.length < 2) return;
    const { reference, pieces, simulated, language } = fragments;
    const options = { ...screenPlate, simulated, language };
    want('fragments', {
      key: fragmentsKey,
      ask: (reading, told) => reading.fragments(reference, pieces, options, told),
    });
  }, [leaf, fragmentsKey, slots.fragments.state === null]);
}

export function ringKey(ring: RingNow | null): string {
  if (!ring) return '';
  const { band, startDeg, facing, arcs } = ring.order;
  return [ring.ring, band.outerMm, band.innerMm, startDeg, facing, arcs ? 'two ways' : ''].join(' ');
}
