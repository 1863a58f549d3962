import type { PointPair } from '../../core/fit/index.ts';
import type { Vec2 } from '../../core/geometry/index.ts';
import type { FaceView, Stated } from '../../workers/browser/protocol.ts';
import type { Document, LeftOut, MarkedPair } from './document.ts';
import type { ShownMark } from './marks.ts';
import { newId } from './newId.ts';
import { act, documentNow } from './store.ts';

type Side = 'reference' | 'subject';

/** The pairs of which both halves are marked. */
export const completePairs = (pairs: readonly MarkedPair[]): PointPair[] =>
  pairs.flatMap(({ reference, subject }) => (reference && subject ? [{ reference, subject }] : []));

/** Marks a place on one of the faces: the first pair that lacks it takes it, else a new pair begins. */
export function markPlace(side: Side, at: Vec2): void {
  act('Place marked', (document) => {
    const waiting = document.pairs.find((pair) => pair[side] === null);
    const pairs = waiting
      ? document.pairs.map((pair) => (pair === waiting ? { ...pair, [side]: at } : pair))
      : [...document.pairs, { id: newId(), reference: null, subject: null, [side]: at }];
    return { ...document, pairs };
  });
}

/** A pair in the middle of both faces, to be moved by keys or numbers. */
export function addPair(): void {
  act('Pair of places added', (document) => ({
    ...document,
    pairs: [...document.pairs, { id: newId(), reference: [0, 0], subject: [0, 0] }],
  }));
}

export function movePlace(id: string, side: Side, at: Vec2): void {
  act(
    'Place moved',
    (document) => ({
      ...document,
      pairs: document.pairs.map((pair) => (pair.id === id ? { ...pair, [side]: at } : pair)),
    }),
    `place ${id} ${side}`,
  );
}

export function removePair(id: string): void {
  act('Pair of places taken away', (document) => ({
    ...document,
    pairs: document.pairs.filter((pair) => pair.id !== id),
  }));
}

export function startFromPairs(): void {
  const pairs = completePairs(documentNow().pairs);
  act('Fit begun at marked places', (document) => ({ ...document, compare: true, start: { from: 'pairs', pairs } }));
}

/** Begins the fit at a turn against the one that the search prefers; none is the search's own. */
export function startFromTurn(turnDeg: number): void {
  const wrapped = ((((turnDeg + 180) % 360) + 360) % 360) - 180;
  const start = Math.abs(wrapped) < 4 ? null : ({ from: 'turn', turnDeg: wrapped } as const);
  act(start ? 'Fit begun at another turn' : 'Fit left to the search', (document) => ({ ...document, start }));
}

export function startBySearch(): void {
  act('Fit left to the search', (document) => ({ ...document, start: null }));
}

/** Takes a mark's region out of everything measured. A region of the user's own moves from the marks to what is left out. */
export function leaveOut(mark: ShownMark): void {
  act('Region left out', (document) => ({
    ...document,
    ownMarks: document.ownMarks.filter(({ id }) => id !== mark.id),
    leftOut: [
      ...document.leftOut,
      {
        id: `out-${newId()}`,
        label: mark.label,
        why: '',
        by: document.conclusion?.by ?? document.firstReading?.by ?? document.leftOut.at(-1)?.by ?? '',
        own: mark.own,
        outline: mark.outline,
      },
    ],
  }));
}

/** Counts a region again: the tool finds its own marks there anew, and a region of the user's own becomes one again. */
export function countAgain({ id, label, own, outline }: LeftOut): void {
  act('Region counted again', (document) => ({
    ...document,
    leftOut: document.leftOut.filter((one) => one.id !== id),
    ownMarks: own ? [...document.ownMarks, { id: `own-${newId()}`, label, outline }] : document.ownMarks,
  }));
}

export function describeLeftOut(id: string, change: Partial<Pick<LeftOut, 'why' | 'by'>>): void {
  act('Reason written', (document) => ({
    ...document,
    leftOut: document.leftOut.map((one) => (one.id === id ? { ...one, ...change } : one)),
  }));
}

/** What is put by hand belongs to one pair of faces: other faces begin without it. */
export const withoutByHand = (document: Document): Document => ({
  ...document,
  pairs: [],
  start: null,
  leftOut: [],
  landmarks: null,
});

/**
 * What is put by hand after another statement about a scan. A face turned upright takes its places along, clockwise on
 * the face as seen; whatever makes another face of it (side, unit, kind) makes the places meaningless.
 */
export function afterRestating(document: Document, id: string, change: Stated, face: FaceView | undefined): Document {
  const side = id === document.referenceId ? 'reference' : id === document.subjectId ? 'subject' : null;
  if (!side) return document;
  if ('mirrored' in change || 'candidate' in change || 'toward' in change || 'unit' in change || 'kind' in change)
    return withoutByHand(document);
  if (!('upDeg' in change)) return document;
  const before = document.scans.find((scan) => scan.id === id)?.stated.upDeg ?? 0;
  const turnDeg = (change.upDeg ?? 0) - before;
  const pairs = document.pairs.map((pair) => {
    const at = pair[side];
    return at ? { ...pair, [side]: turned(at, turnDeg) } : pair;
  });
  const start = document.start?.from === 'pairs' ? { ...document.start, pairs: completePairs(pairs) } : document.start;
  if (side === 'subject') return { ...document, pairs, start };
  // An engraved face lies turned over on the plate.
  const onPlate = face?.sense === 'intaglio' ? -turnDeg : turnDeg;
  const outlined = <T extends { readonly outline: readonly Vec2[] }>(one: T): T => ({
    ...one,
    outline: one.outline.map((at) => turned(at, onPlate)),
  });
  return {
    ...document,
    pairs,
    start,
    landmarks: document.landmarks?.map((at) => turned(at, turnDeg)) ?? null,
    leftOut: document.leftOut.map(outlined),
    ownMarks: document.ownMarks.map(outlined),
  };
}

/** Clockwise about the middle. */
function turned([x, y]: Vec2, deg: number): Vec2 {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  return [c * x + s * y, -s * x + c * y];
}
