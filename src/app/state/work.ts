import { comparisonKey } from '../../core/session.ts';
import { called } from '../../workers/browser/openWorker.ts';
import type { Answer, ComparisonView, FaceView, ScanOrder } from '../../workers/browser/protocol.ts';
import { failed, type Job, Lane } from '../jobs/runner.ts';
import { isAhead, prepared, readAhead, services } from '../jobs/workers.ts';
import { blobOf } from './bytes.ts';
import { type Document, keyOf, type ScanEntry, scanById } from './document.ts';
import { givenIn } from './given.ts';
import { isSeating, seatFresh } from './seats.ts';
import { amend, documentNow, getState, setState, useStore } from './store.ts';

/** A scan with its bytes, as the worker takes it; null where the bytes are not here. */
export function orderOf(scan: ScanEntry): ScanOrder | null {
  const file = blobOf(scan.id);
  return file ? { key: keyOf(scan), name: scan.name, file, stated: scan.stated } : null;
}

/** Does the next thing that the document asks for and that is not done yet, then looks again. */
const lane = new Lane(() => {
  if (!getState().restored) return null;
  return nextScan(documentNow()) ?? nextComparison(documentNow());
});

/** Keeps what is shown in step with the document: whatever changed it, an act, an undo or a reload. */
export function keepWorking(): () => void {
  void lane.wake();
  return useStore.subscribe((state, before) => {
    if (state.history.present !== before.history.present || state.faces !== before.faces) seat();
    if (state.history.present !== before.history.present || state.restored !== before.restored) void lane.wake();
  });
}

/** Gives the plate to what was brought in, as far as it is read; whoever waited for it is led to the finding. */
function seat(): void {
  const before = documentNow();
  amend((document) => seatFresh(document, getState().faces));
  const { compare, fresh, referenceId, subjectId } = documentNow();
  const seated = before.fresh.some((id) => id === referenceId || id === subjectId) && fresh.length === 0;
  if (seated && compare && getState().step === 'bringIn') setState({ step: 'finding' });
}

/** Pairs of keys that were tried together: a unit left open is asked of each partner once. */
const tried = new Set<string>();

function nextScan(document: Document): Job<FaceView> | null {
  const { faces } = getState();
  for (const scan of document.scans) {
    const face = faces[scan.id];
    const open = face?.at === 'failed' && face.failure.code === 'unitNeeded';
    const known = face?.key === keyOf(scan);
    if (known && !open) continue;
    const partners = partnersOf(scan, document);
    const partner = partners.find((other) => !tried.has(`${keyOf(scan)}\n${keyOf(other)}`));
    if (known && !partner) continue;
    if (partner) tried.add(`${keyOf(scan)}\n${keyOf(partner)}`);
    return preparing(scan, partner);
  }
  return null;
}

/** The one that came together with a scan, else its other date or the one beside it on the plate: only a partner may settle a unit. */
function partnersOf(scan: ScanEntry, { fresh, scans, dates, referenceId, subjectId }: Document): ScanEntry[] {
  const dated = datePairs(dates).find((pair) => pair.includes(scan.id));
  const together = fresh.includes(scan.id) ? fresh : (dated ?? [referenceId, subjectId]);
  const group = together.length === 2 && together.includes(scan.id) ? together : [];
  return scans.filter((other) => other !== scan && group.includes(other.id));
}

/** A second scan of one date belongs to the first, and the two dates to one another. */
const datePairs = ({ earlierId, laterId, earlierAgainId, laterAgainId }: Document['dates']) => [
  [earlierId, laterId],
  [earlierAgainId, earlierId],
  [laterAgainId, laterId],
];

function preparing(scan: ScanEntry, partner: ScanEntry | undefined): Job<FaceView> {
  const order = orderOf(scan);
  return {
    key: keyOf(scan),
    ask: async (told): Promise<Answer<FaceView>> => {
      if (!order) return failed('The bytes of this scan are gone from the browser; bring the file in again.');
      if (!isAhead(order.key)) readOneAhead(scan);
      return prepared(order, partner ? orderOf(partner) : null, told);
    },
    show: (face) => setState(({ faces }) => ({ faces: { ...faces, [scan.id]: face } })),
  };
}

/** While one worker reads a scan, another reads the next one that the document waits for. */
function readOneAhead(reading: ScanEntry): void {
  const { faces } = getState();
  const later = documentNow().scans.find((scan) => scan !== reading && faces[scan.id]?.key !== keyOf(scan));
  const order = later && orderOf(later);
  if (order) readAhead(order);
}

function nextComparison(document: Document): Job<ComparisonView> | null {
  const reference = scanById(document, document.referenceId);
  const subject = scanById(document, document.subjectId);
  const { faces, comparison } = getState();
  if (!document.compare || !reference || !subject || isSeating(document, faces)) return null;
  if (faces[reference.id]?.at !== 'ready' || faces[subject.id]?.at !== 'ready') return null;
  const given = givenIn(document, faces[reference.id]);
  const key = comparisonKey(keyOf(reference), keyOf(subject), given);
  const [first, second] = [orderOf(reference), orderOf(subject)];
  if (comparison?.key === key || !first || !second) return null;
  const seen = called((view: ComparisonView) => setState({ held: view }));
  return {
    key,
    ask: (told) => services().compare(first, second, given, told, seen),
    show: (state) => setState({ comparison: state, ...(state.at === 'ready' && { held: state.value }) }),
  };
}

/** Tries a stopped or failed step again. */
export function tryAgain(scanId: string | null): void {
  if (scanId === null) setState({ comparison: null });
  else setState(({ faces }) => ({ faces: Object.fromEntries(Object.entries(faces).filter(([id]) => id !== scanId)) }));
  void lane.wake();
}
