import type { ComparisonView, FaceView } from '../../workers/browser/protocol.ts';
import { storedPicture } from '../../workers/browser/storedPicture.ts';
import { parsedJson, Refusal, shortText } from '../admission/admit.ts';
import { admitSession } from '../admission/session.ts';
import type { Keyed } from '../jobs/progress.ts';
import { runOnce } from '../jobs/runner.ts';
import { services } from '../jobs/workers.ts';
import { blobOf } from '../state/bytes.ts';
import type { Document } from '../state/document.ts';
import { historyOf } from '../state/history.ts';
import { loadFile, openedId, saveFile } from '../state/persist.ts';
import type { Brought } from '../state/scans.ts';
import { documentNow, getState, notify, setState } from '../state/store.ts';
import { type Pictured, type Unpacked, unpackComparison } from './unpack.ts';

/** Larger is no session: they hold no surfaces. */
const mostSessionBytes = 24_000_000;

/**
 * Opens a saved comparison or a saved session; false where the file is an ordinary scan. What cannot be opened is said in one
 * sentence, and what lies on the plate stays. What was there before can be had back by undo.
 */
export async function openSaved(brought: Brought | undefined): Promise<boolean> {
  if (!brought) return false;
  try {
    if (/\.json$/i.test(brought.name)) return await openSession(brought);
    return /\.glb$/i.test(brought.name) && (await openComparison(brought));
  } catch (error) {
    if (error instanceof Refusal) notify(error.message);
    else notify(`${shortText(brought.name)} could not be read: ${shortText(String(error))}.`);
    return true;
  }
}

async function openComparison({ name, file }: Brought): Promise<boolean> {
  const saved = await unpackComparison(new Uint8Array(await file.arrayBuffer()), name, inWorker);
  if (!saved) return false;
  await saveFile(openedId, file).catch(() => undefined);
  layOut(saved, past('Saved comparison opened'));
  return true;
}

async function openSession({ name, file }: Brought): Promise<boolean> {
  const what = `The file ${shortText(name)}`;
  if (file.size > mostSessionBytes) throw new Refusal(`${what} is too large for a saved session and was not opened.`);
  const { document } = admitSession(parsedJson(new Uint8Array(await file.arrayBuffer()), what), what);
  setState({ history: { ...historyOf(document), past: past('Saved session opened') } });
  notify('The session was opened without its scans; bring the files in again to work on it.');
  return true;
}

const past = (words: string) => [...getState().history.past, { words, state: getState().history.present }];

const inWorker: Pictured = async (relief) => {
  const answer = await runOnce(() => services().picture(relief));
  return answer === 'stopped' ? { ok: false, code: 'unexpected', message: 'stopped' } : answer;
};
/** In a page without a worker. */
export const inPage: Pictured = async (relief) => ({ ok: true, value: storedPicture(relief) });

/** Puts what a saved file holds on the plate. The keys agree, so nothing is worked out by itself. */
export function layOut(saved: Unpacked, before: ReturnType<typeof past> = []): void {
  setState((state) => ({
    history: { ...historyOf(saved.document), past: before },
    faces: { ...state.faces, ...ready(saved.faces, saved.document) },
    comparison: null,
    ...shown(saved.comparison),
    step: 'compare',
  }));
}

const shown = (opened: ComparisonView | null) => ({ opened, held: null });

const ready = (faces: Unpacked['faces'], document: Document): Record<string, Keyed<FaceView>> =>
  Object.fromEntries(
    document.scans.flatMap(({ id }) => {
      const value = Object.hasOwn(faces, id) ? faces[id] : undefined;
      return value && !blobOf(id) ? [[id, { at: 'ready', key: value.key, value }]] : [];
    }),
  );

/** After a reload: faces of scans whose own bytes are not in the browser, from the file that was opened last. */
export async function fillFromOpened(): Promise<void> {
  if (documentNow().scans.every((scan) => blobOf(scan.id))) return;
  try {
    const file = await loadFile(openedId);
    if (!file) return;
    const saved = await unpackComparison(new Uint8Array(await file.arrayBuffer()), 'opened last', inWorker);
    if (!saved) return;
    setState((state) => ({
      faces: { ...state.faces, ...ready(saved.faces, documentNow()) },
      ...shown(saved.comparison),
    }));
  } catch (error) {
    notify(
      error instanceof Refusal ? error.message : 'The saved comparison that was opened last could not be read again.',
    );
  }
}
