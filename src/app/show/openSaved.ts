import type { FaceView } from '../../workers/browser/protocol.ts';
import { blobOf } from '../state/bytes.ts';
import { historyOf } from '../state/history.ts';
import { loadFile, openedId, saveFile } from '../state/persist.ts';
import type { Brought } from '../state/scans.ts';
import { documentNow, getState, type Keyed, notify, setState } from '../state/store.ts';
import { type Unpacked, unpackComparison } from './saved/unpack.ts';

/** Opens a saved comparison; false where the file is an ordinary scan. What was on the plate can be had back by undo. */
export async function openSaved(brought: Brought | undefined): Promise<boolean> {
  if (!brought || !/\.glb$/i.test(brought.name)) return false;
  const saved = unpackComparison(new Uint8Array(await brought.file.arrayBuffer()));
  if (!saved) return false;
  await saveFile(openedId, brought.file).catch(() => undefined);
  const { history } = getState();
  const past = [...history.past, { words: 'Saved comparison opened', state: history.present }];
  layOut(saved);
  setState({ history: { past, present: saved.document, future: [], merge: null } });
  if (saved.detail === 'reduced')
    notify('Opened with reduced surfaces, as it was saved. Bring the original scans in to work at their full detail.');
  return true;
}

/** Puts what a saved file holds on the plate. The keys agree, so nothing is worked out again. */
export function layOut(saved: Unpacked): void {
  const faces: Record<string, Keyed<FaceView>> = {};
  for (const [id, value] of Object.entries(saved.faces)) faces[id] = { at: 'ready', key: value.key, value };
  const { comparison } = saved;
  setState((state) => ({
    history: historyOf(saved.document),
    faces: { ...state.faces, ...faces },
    comparison: comparison && { at: 'ready', key: comparison.key, value: comparison },
    held: comparison,
    step: 'compare',
  }));
}

/** After a reload: faces of scans whose own bytes are not in the browser, from the file that was opened last. */
export async function fillFromOpened(): Promise<void> {
  const missing = documentNow().scans.filter((scan) => !blobOf(scan.id));
  if (missing.length === 0) return;
  const file = await loadFile(openedId).catch(() => undefined);
  const saved = file && unpackComparison(new Uint8Array(await file.arrayBuffer()));
  if (!saved) return;
  const faces = Object.fromEntries(
    missing.flatMap(({ id }): [string, Keyed<FaceView>][] => {
      const value = saved.faces[id];
      return value ? [[id, { at: 'ready', key: value.key, value }]] : [];
    }),
  );
  const { comparison } = saved;
  setState((state) => ({
    faces: { ...state.faces, ...faces },
    comparison: comparison && { at: 'ready', key: comparison.key, value: comparison },
    held: comparison,
  }));
}
