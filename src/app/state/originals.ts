import { sha256 } from '../../workers/browser/digest.ts';
import { blobOf, keepBlob } from './bytes.ts';
import type { ScanEntry } from './document.ts';
import { saveFile } from './persist.ts';
import { documentNow, getState, notify, setState } from './store.ts';

/** Scans that are here only as a saved file keeps them, by the SHA-256 of their originals. */
function awaited(): Map<string, ScanEntry> {
  const { faces } = getState();
  return new Map(
    documentNow().scans.flatMap((scan) => {
      const face = faces[scan.id];
      return face?.at === 'ready' && face.value.fromFile && !blobOf(scan.id) ? [[face.value.sha256, scan]] : [];
    }),
  );
}

/** Whether some scan is here only as a saved file keeps it. */
export const awaitsOriginals = (): boolean => awaited().size > 0;

/**
 * Takes those of the files that are originals of what a saved file keeps, told by their SHA-256: their scans are read and
 * measured anew, with all that was stated about them. Gives back the rest.
 */
export async function takeOriginals<T extends { readonly file: Blob }>(brought: readonly T[]): Promise<readonly T[]> {
  const wanted = awaited();
  const rest: T[] = [];
  const found: ScanEntry[] = [];
  for (const one of brought) {
    const scan = wanted.get(await sha256(new Uint8Array(await one.file.arrayBuffer())));
    if (!scan) {
      rest.push(one);
      continue;
    }
    const file = new Blob([await one.file.arrayBuffer()]);
    keepBlob(scan.id, file);
    await saveFile(scan.id, file).catch(() => undefined);
    found.push(scan);
  }
  if (found.length > 0) readAgain(found);
  return rest;
}

function readAgain(scans: readonly ScanEntry[]): void {
  const ids = new Set(scans.map(({ id }) => id));
  // A new document, equal to the old one, wakes the work on it.
  setState(({ faces, history }) => ({
    faces: Object.fromEntries(Object.entries(faces).filter(([id]) => !ids.has(id))),
    history: { ...history, present: { ...history.present } },
  }));
  const titles = scans.map(({ title }) => title).join(', ');
  notify(`Known by its digest as the original of what the saved file keeps, and measured anew: ${titles}.`);
}
