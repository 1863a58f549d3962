import type { Stated } from '../../workers/browser/protocol.ts';
import { afterRestating, withoutByHand } from './byHand.ts';
import { blobOf, keepBlob } from './bytes.ts';
import { type Document, emptyDocument, onlyOpening, restingView, type ScanEntry } from './document.ts';
import { awaitsOriginals, takeOriginals } from './originals.ts';
import { keptFirst, saveFile } from './persist.ts';
import { act, getState, notify, setState } from './store.ts';

export interface Brought {
  readonly file: Blob;
  readonly name: string;
  readonly stated?: Stated;
  readonly title?: string;
  readonly simulated?: boolean;
  readonly opening?: boolean;
}

const readable = /\.(ply|stl|obj|glb|gltf|x3p|png|tiff?|zip)$/i;

/** Adds scans to the plate. The first two take the places of reference and subject. */
export async function bringIn(all: readonly Brought[], words = 'Scans brought in'): Promise<void> {
  // Without anything to wait for, the scans are laid out at once.
  const brought = awaitsOriginals() ? await takeOriginals(all) : all;
  const known = brought.filter(({ name }) => readable.test(name));
  const other = brought.length - known.length;
  if (other > 0)
    notify(
      `${other === 1 ? 'One file is' : `${other} files are`} of a kind that is not read here; PLY, STL, OBJ, glTF, X3P, PNG and TIFF are, and a zip with one of them.`,
    );
  if (known.length === 0) return;
  const entries = known.map(({ name, stated, title, file, simulated, opening }): ScanEntry => {
    const id = crypto.randomUUID();
    keepBlob(id, file);
    return {
      id,
      name,
      stated: stated ?? {},
      title: title ?? name.replace(/\.[^.]+$/, ''),
      ...(simulated && { simulated }),
      ...(opening && { opening }),
    };
  });
  const own = entries.every((entry) => !entry.simulated);
  act(words, (before) => {
    const document = own ? withoutOpening(before) : before;
    return seated({ ...document, scans: [...document.scans, ...entries] });
  });
  await keptFirst(allKept(entries));
}

/** The pair that the page laid out makes room, with all that was said about it; undo brings it back. */
const withoutOpening = (document: Document): Document =>
  onlyOpening(document) ? { ...emptyDocument, view: { ...restingView, lamp: document.view.lamp } } : document;

async function allKept(entries: readonly ScanEntry[]): Promise<void> {
  for (const entry of entries) await kept(entry);
}

async function kept(entry: ScanEntry): Promise<void> {
  const file = blobOf(entry.id);
  if (!file) return;
  // A File only points at the disk and may be gone after a reload, so its bytes are kept.
  await saveFile(entry.id, new Blob([await file.arrayBuffer()])).catch(() =>
    notify(
      `${entry.name} could not be kept in this browser: it is too large for the space left. It works until the page is closed.`,
    ),
  );
}

/** Empty places of the pair are filled by the first scans that are free. */
function seated(document: Document): Document {
  const ids = document.scans.map((scan) => scan.id);
  const referenceId = ids.includes(document.referenceId ?? '') ? document.referenceId : null;
  const subjectId = ids.includes(document.subjectId ?? '') ? document.subjectId : null;
  const free = ids.filter((id) => id !== referenceId && id !== subjectId);
  const reference = referenceId ?? free.shift() ?? null;
  const subject = subjectId ?? free.shift() ?? null;
  const seats = { ...document, referenceId: reference, subjectId: subject };
  const same = reference === document.referenceId && subject === document.subjectId;
  return same ? seats : withoutByHand(seats);
}

export function removeScan(id: string): void {
  act('Scan put away', (document) =>
    seated({ ...document, compare: false, scans: document.scans.filter((scan) => scan.id !== id) }),
  );
}

export function restate(id: string, change: Stated, words = 'Statement changed'): void {
  const face = getState().faces[id];
  act(words, (document) => ({
    ...afterRestating(document, id, change, face?.at === 'ready' ? face.value : undefined),
    scans: document.scans.map((scan) =>
      scan.id === id ? { ...scan, stated: pruned({ ...scan.stated, ...change }) } : scan,
    ),
  }));
}

/** What is no longer stated is left out, so that the same statements give the same key. */
const pruned = (stated: Stated): Stated =>
  Object.fromEntries(Object.entries(stated).filter(([, value]) => value !== undefined && value !== '')) as Stated;

export const restateFace = (id: string, change: Stated): void => restate(id, change, 'Face turned');

export function retitle(id: string, title: string): void {
  act(
    'Caption changed',
    (document) => ({ ...document, scans: document.scans.map((scan) => (scan.id === id ? { ...scan, title } : scan)) }),
    `title ${id}`,
  );
}

export function seat(place: 'referenceId' | 'subjectId', id: string): void {
  const other = place === 'referenceId' ? 'subjectId' : 'referenceId';
  act(place === 'referenceId' ? 'Reference chosen' : 'Subject chosen', (document) => ({
    ...withoutByHand(document),
    [place]: id,
    [other]: document[other] === id ? document[place] : document[other],
  }));
}

/** Asks for the pair to be compared and turns to the comparison. */
export function comparePair(): void {
  act('Compared', (document) => ({ ...document, compare: true, findingOpen: false }));
  setState({ step: 'compare' });
}
