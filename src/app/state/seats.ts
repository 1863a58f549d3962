import type { Kind } from '../../core/scan/index.ts';
import type { FaceView } from '../../workers/browser/protocol.ts';
import type { Keyed } from '../jobs/progress.ts';
import { withoutByHand } from './byHand.ts';
import { type Document, keyOf, onlyOpening, type ScanEntry, scanById } from './document.ts';

export type Faces = Readonly<Record<string, Keyed<FaceView>>>;

/** Of many files brought in at once, so many are read before two of them take the plate; the first by name. */
export const mostAwaited = 12;

/** What was made first stands first: the matrix before the mould, the impression before the cast. */
const order: readonly Kind[] = ['matrix', 'mould', 'impression', 'cast'];

interface Seatable {
  readonly id: string;
  readonly face: Pick<FaceView, 'kind' | 'sense' | 'outline' | 'sha256'>;
}

const longSide = ({ outline }: Seatable['face']): number => Math.max(outline.widthMm, outline.heightMm);

/** By kind, then the larger face (a copy cast from another is the smaller), then by content: never by the order of the files. */
export const byRole = (a: Seatable, b: Seatable): number =>
  order.indexOf(a.face.kind) - order.indexOf(b.face.kind) ||
  longSide(b.face) - longSide(a.face) ||
  (a.face.sha256 < b.face.sha256 ? -1 : 1);

/** The two of several that take the plate: the first by role, and of the positives beside it the one nearest in size, else the next. */
export function pairOf(all: readonly Seatable[]): readonly [Seatable, Seatable] | null {
  const [first, ...rest] = [...all].sort(byRole);
  if (!first || rest.length === 0) return null;
  const apart = ({ face }: Seatable): number => Math.abs(Math.log(longSide(face) / longSide(first.face)));
  const positives = rest.filter(({ face }) => face.sense === 'relief');
  const second = positives.reduce<Seatable | undefined>(
    (best, one) => (best && apart(best) <= apart(one) ? best : one),
    undefined,
  );
  return [first, second ?? rest[0]];
}

/** Whether the user is asked how large it is. */
export const asksForUnit = (face: Keyed<FaceView> | undefined): boolean =>
  face?.at === 'failed' && face.failure.code === 'unitNeeded';

interface Group {
  readonly ready: readonly Seatable[];
  /** Still being read. */
  readonly pending: number;
  /** Their unit is asked of the user. */
  readonly asking: number;
}

function groupOf({ fresh, ...document }: Document, faces: Faces): Group {
  const ready: Seatable[] = [];
  let [pending, asking] = [0, 0];
  for (const id of fresh.slice(0, mostAwaited)) {
    const scan = document.scans.find((one) => one.id === id);
    if (!scan) continue;
    const state = faces[id];
    if (state?.key !== keyOf(scan) || state.at === 'working' || state.at === 'waiting') pending++;
    else if (state.at === 'ready') ready.push({ id, face: state.value });
    else if (asksForUnit(state)) asking++;
  }
  return { ready, pending, asking };
}

/** Whether some of what was brought in is still being read: which two take the plate is not known until then. */
export const isSeating = (document: Document, faces: Faces): boolean => groupOf(document, faces).pending > 0;

/**
 * Gives the plate to what was brought in, as soon as something of it can be read: two by their roles, one alone where nothing
 * lies there, or beside the one that lies there. As long as some of it is read, or a unit of it is asked, the first by role lies alone: which
 * belongs beside it is not known, and strangers would look like a pair. What cannot be read takes nobody's place. The same document where nothing changes.
 */
export function seatFresh(document: Document, faces: Faces): Document {
  if (document.fresh.length === 0) return document;
  const { ready, pending, asking } = groupOf(document, faces);
  const first = [...ready].sort(byRole)[0];
  if (pending + asking > 0) return first ? laidAlone(document, first) : document;
  const pair = pairOf(ready);
  return {
    ...(pair ? laid(document, pair[0].id, pair[1].id) : first ? laidBeside(document, first, faces) : document),
    fresh: [],
  };
}

function laid(before: Document, referenceId: string | null, subjectId: string | null): Document {
  if (before.referenceId === referenceId && before.subjectId === subjectId) return before;
  const both = referenceId !== null && subjectId !== null;
  const [a, b] = [referenceId, subjectId].map((id) => scanById(before, id));
  return {
    ...forAnotherPair(a?.simulated || b?.simulated ? before : withoutOpening(before)),
    ...{ referenceId, subjectId, compare: both, findingOpen: both },
  };
}

const laidAlone = (document: Document, { id, face }: Seatable): Document =>
  face.sense === 'intaglio' ? laid(document, id, null) : laid(document, null, id);

/** A scan that came alone: it joins the one on the plate; two of one's own there stay. */
function laidBeside(document: Document, one: Seatable, faces: Faces): Document {
  const seated = [document.referenceId, document.subjectId].filter((id) => id !== null && id !== one.id);
  if (seated.length === 2) return onlyOpening(withoutScans(document, [one.id])) ? laidAlone(document, one) : document;
  const [id] = seated;
  const state = id ? faces[id] : undefined;
  if (!id || state?.at !== 'ready') return laidAlone(document, one);
  const pair = pairOf([{ id, face: state.value }, one]);
  return pair ? laid(document, pair[0].id, pair[1].id) : document;
}

const withoutScans = (document: Document, ids: readonly string[]): Document => ({
  ...document,
  scans: document.scans.filter(({ id }) => !ids.includes(id)),
});

/** The pair that the page laid out goes, unless something was written or drawn on it. */
function withoutOpening(document: Document): Document {
  const own = (scan: ScanEntry): boolean => !scan.opening;
  const ids = document.scans.filter(own).map(({ id }) => id);
  return onlyOpening(withoutScans(document, ids)) ? { ...document, scans: document.scans.filter(own) } : document;
}

/** What was said and drawn belongs to the pair it was said of; undo has it. */
const forAnotherPair = (document: Document): Document => ({
  ...withoutByHand(document),
  ...{ marks: {}, ownMarks: [], firstReading: null, conclusion: null },
  view: { ...document.view, section: null, wear: null, camera: { ...document.view.camera, x: 0, y: 0, zoom: 1 } },
});
