import { create } from 'zustand';
import { collectionServices } from '../../../workers/browser/openCollectionWorker.ts';
import type { FaceView } from '../../../workers/browser/protocol.ts';

/** Faces that are kept in the page at most: each takes some megabytes. */
const mostKept = 64;

/** A face by its scan's number; a sentence where it could not be had. */
export const useFaces = create<Readonly<Record<number, FaceView | string>>>()(() => ({}));

let wanted: readonly number[] = [];
let working = false;

/** Has the faces of these scans brought, in this order; what was wanted before and is not begun is left. */
export function wantFaces(scans: readonly number[]): void {
  wanted = scans;
  if (!working) void bring();
}

async function bring(): Promise<void> {
  working = true;
  for (;;) {
    const next = wanted.find((scan) => !(scan in useFaces.getState()));
    if (next === undefined) break;
    const face = await faceOf(next);
    useFaces.setState((known) => ({ ...pruned(known), [next]: face }), true);
  }
  working = false;
}

function pruned(known: Readonly<Record<number, FaceView | string>>): Record<number, FaceView | string> {
  const spare = Object.keys(known)
    .map(Number)
    .filter((scan) => !wanted.includes(scan));
  const away = new Set(spare.slice(0, Math.max(0, Object.keys(known).length - mostKept)));
  return Object.fromEntries(Object.entries(known).filter(([scan]) => !away.has(Number(scan))));
}

async function faceOf(scan: number): Promise<FaceView | string> {
  const answer = await fetch(`faces/${scan}`).catch(() => null);
  if (!answer?.ok) return 'Its face cannot be had.';
  const read = await collectionServices().face(`kept-${scan}`, new Uint8Array(await answer.arrayBuffer()));
  return read.ok ? read.value : read.message;
}
