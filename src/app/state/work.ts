import { called, listener, type OpenBench, openBench } from '../../workers/browser/openBench.ts';
import {
  type Answer,
  type ComparisonView,
  comparisonKey,
  type FaceView,
  type Failure,
  type ScanOrder,
  type Told,
} from '../../workers/browser/protocol.ts';
import { aheadOf, forgetAhead, handOver, readAheadOf } from './ahead.ts';
import { blobOf } from './bytes.ts';
import { type Document, keyOf, type ScanEntry, scanById } from './document.ts';
import { givenIn } from './given.ts';
import { documentNow, getState, type Keyed, setState, useStore } from './store.ts';

let open: OpenBench | null = null;
let busy = false;

const benchNow = () => {
  open ??= openBench();
  return open.bench;
};

const orderOf = (scan: ScanEntry): ScanOrder | null => {
  const file = blobOf(scan.id);
  return file ? { key: keyOf(scan), name: scan.name, file, stated: scan.stated } : null;
};

/** Keeps what is shown in step with the document: whatever changed it, an act, an undo or a reload. */
export function keepWorking(): () => void {
  void next();
  return useStore.subscribe((state, before) => {
    if (state.history.present !== before.history.present || state.restored !== before.restored) void next();
  });
}

/** Does the next thing that the document asks for and that is not done yet, then looks again. */
async function next(): Promise<void> {
  if (busy || !getState().restored) return;
  const job = nextScan(documentNow()) ?? nextComparison(documentNow());
  if (!job) return;
  busy = true;
  try {
    await job();
  } finally {
    busy = false;
  }
  void next();
}

/** Pairs of keys that were tried together: a unit left open is asked of each partner once. */
const tried = new Set<string>();

function nextScan(document: Document): (() => Promise<void>) | null {
  const { faces } = getState();
  for (const scan of document.scans) {
    const face = faces[scan.id];
    const open = face?.at === 'failed' && face.failure.code === 'unitNeeded';
    const partner = document.scans.find((other) => other.id !== scan.id);
    const together = partner ? `${keyOf(scan)}\n${keyOf(partner)}` : keyOf(scan);
    if (face?.key === keyOf(scan) && !(open && !tried.has(together))) continue;
    tried.add(together);
    return () => prepareOne(scan, partner);
  }
  return null;
}

function prepareOne(scan: ScanEntry, partner: ScanEntry | undefined): Promise<void> {
  const order = orderOf(scan);
  if (!order) return Promise.resolve(setFace(scan.id, missing(scan)));
  const withPartner = partner ? orderOf(partner) : null;
  const show = (state: Outcome<FaceView>): void => setFace(scan.id, { key: order.key, ...state });
  const readAhead = aheadOf(order.key);
  if (!readAhead) {
    readOneAhead(scan);
    return follow<FaceView>((told) => benchNow().prepare(order, withPartner, told), show);
  }
  return follow<FaceView>(async (told) => {
    readAhead.tell = told;
    const answer = await readAhead.answer;
    if (answer?.ok && (await handOver(order.key, benchNow()))) return answer;
    // A unit that the scan leaves open is settled with its partner, which the first worker knows.
    return benchNow().prepare(order, withPartner, told);
  }, show);
}

/** While one worker reads a scan, another reads the next one that the document waits for. */
function readOneAhead(reading: ScanEntry): void {
  const { faces } = getState();
  const later = documentNow().scans.find((scan) => scan !== reading && faces[scan.id]?.key !== keyOf(scan));
  const order = later && orderOf(later);
  if (order) readAheadOf(order);
}

function nextComparison(document: Document): (() => Promise<void>) | null {
  const reference = scanById(document, document.referenceId);
  const subject = scanById(document, document.subjectId);
  if (!document.compare || !reference || !subject) return null;
  const { faces, comparison } = getState();
  if (faces[reference.id]?.at !== 'ready' || faces[subject.id]?.at !== 'ready') return null;
  const given = givenIn(document, faces[reference.id]);
  const key = comparisonKey(keyOf(reference), keyOf(subject), given);
  const [first, second] = [orderOf(reference), orderOf(subject)];
  if (comparison?.key === key || !first || !second) return null;
  return () => {
    return follow<ComparisonView>(
      (told) =>
        benchNow().compare(
          first,
          second,
          given,
          told,
          called((view) => setState({ held: view })),
        ),
      (state) => setState({ comparison: { key, ...state }, ...(state.at === 'ready' && { held: state.value }) }),
    );
  };
}

type Outcome<T> =
  | { at: 'working'; fraction: number; doing: string }
  | { at: 'ready'; value: T }
  | { at: 'stopped' }
  | { at: 'failed'; failure: Failure };

let stop: (() => void) | null = null;

/** Runs one step of the bench and shows how it goes. Progress that arrives after the result is not shown. */
async function follow<T>(ask: (told: Told) => Promise<Answer<T>>, show: (state: Outcome<T>) => void): Promise<void> {
  let over = false;
  show({ at: 'working', fraction: 0, doing: 'starting' });
  const told = listener((fraction, doing) => {
    if (!over) show({ at: 'working', fraction, doing });
  });
  const stopped = new Promise<'stopped'>((resolve) => {
    stop = () => resolve('stopped');
  });
  const result = await Promise.race([ask(told).catch(unexpected), stopped]);
  over = true;
  stop = null;
  if (result === 'stopped') show({ at: 'stopped' });
  else if (result.ok) show({ at: 'ready', value: result.value });
  else show({ at: 'failed', failure: result });
}

const unexpected = (error: unknown): Failure => ({
  ok: false,
  code: 'unexpected',
  message: `The work on this step broke off: ${error instanceof Error ? error.message : String(error)}`,
});

/** Stops the step that runs. The worker is ended, since it cannot listen while it works; a new one starts when needed. */
export function stopWork(): void {
  stop?.();
  for (const tell of whenStopped) tell();
  open?.close();
  open = null;
  forgetAhead();
}

/** Tries a stopped or failed step again. */
export function tryAgain(scanId: string | null): void {
  if (scanId === null) setState({ comparison: null });
  else setState(({ faces }) => ({ faces: Object.fromEntries(Object.entries(faces).filter(([id]) => id !== scanId)) }));
  void next();
}

/** Told when the worker is ended, so that nobody waits for an answer that will not come. */
export const whenStopped = new Set<() => void>();

/** A scan with its bytes, as the worker takes it; null where the bytes are not here. */
export { orderOf };

const setFace = (id: string, face: Keyed<FaceView>): void =>
  setState(({ faces }) => ({ faces: { ...faces, [id]: face } }));

const missing = (scan: ScanEntry): Keyed<FaceView> => ({
  key: keyOf(scan),
  at: 'failed',
  failure: {
    ok: false,
    code: 'unexpected',
    message: 'The bytes of this scan are gone from the browser; bring the file in again.',
  },
});

export const bench = benchNow;
