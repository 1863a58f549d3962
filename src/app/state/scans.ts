import type { Stated } from '../../workers/browser/protocol.ts';
import { afterRestating, withoutByHand } from './byHand.ts';
import { blobOf, keepBlob } from './bytes.ts';
import type { Document, ScanEntry } from './document.ts';
import { newId } from './newId.ts';
import { awaitsOriginals, takeOriginals } from './originals.ts';
import { keptFirst, saveFile } from './persist.ts';
import { act, documentNow, getState, notify, setState } from './store.ts';

export interface Brought {
  readonly file: Blob;
  readonly name: string;
  readonly stated?: Stated;
  readonly title?: string;
  readonly simulated?: boolean;
  readonly opening?: boolean;
}

const readable = /\.(ply|stl|obj|glb|gltf|x3p|png|tiff?|zip)$/i;

/**
 * Takes files in. Two of them take the plate by their roles as soon as they are read (`seats.ts`); what lay there can be had
 * back by undo, and stays where nothing of what came can be read. The order in which files come means nothing. `laid`: what else is
 * done with them in the same act; `said`: what is to be said of how they were taken.
 */
export async function bringIn(
  all: readonly Brought[],
  words = 'Scans brought in',
  laid: (document: Document, ids: readonly string[]) => Document = laidByRole,
  said: string | null = null,
): Promise<void> {
  // Without anything to wait for, the scans are laid out at once.
  const brought = awaitsOriginals() ? await takeOriginals(all) : all;
  const known = brought.filter(isTaken).sort(byName);
  // What was said of files brought in before is over.
  if (brought.some(({ opening }) => !opening)) notify(refusalOf(brought) ?? said);
  if (known.length === 0) return;
  const entries = known.map(({ name, stated, title, file, simulated, opening }): ScanEntry => {
    const id = newId();
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
  const ids = entries.map(({ id }) => id);
  act(words, (document) => laid({ ...document, scans: [...document.scans, ...entries] }, ids));
  await keptFirst(allKept(entries));
}

const laidByRole = (document: Document, fresh: readonly string[]): Document => ({ ...document, fresh });

const isTaken = ({ name, file }: Brought): boolean => readable.test(name) && file.size > 0;
const byName = (a: Brought, b: Brought): number =>
  a.name < b.name ? -1 : a.name > b.name ? 1 : a.file.size - b.file.size;

/** One sentence on the files that were not taken in, by name. */
function refusalOf(brought: readonly Brought[]): string | null {
  const empty = brought.filter(({ name, file }) => readable.test(name) && file.size === 0);
  const other = brought.filter(({ name }) => !readable.test(name));
  const sentences = [
    ...(empty.length > 0
      ? [
          `${namesOf(empty)} ${empty.length === 1 ? 'is an empty file' : 'are empty files'}: copy or export the scan again.`,
        ]
      : []),
    ...(other.length > 0
      ? [
          `${namesOf(other)} ${other.length === 1 ? 'is' : 'are'} of a kind that is not read here; PLY, STL, OBJ, glTF, X3P, PNG and TIFF are, and a zip with one of them.`,
        ]
      : []),
  ];
  return sentences.length > 0 ? `${sentences.join(' ')} What lies here stays as it is.` : null;
}

const namesOf = (brought: readonly Brought[]): string =>
  brought.length > 3
    ? `${brought[0].name} and ${brought.length - 1} more`
    : brought.map(({ name }) => name).join(' and ');

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

export function removeScan(id: string): void {
  act('Scan put away', (document) => {
    const seated = id === document.referenceId || id === document.subjectId;
    return {
      ...(seated ? withoutByHand(document) : document),
      ...(seated && { compare: false, findingOpen: false }),
      scans: document.scans.filter((scan) => scan.id !== id),
      fresh: document.fresh.filter((one) => one !== id),
      referenceId: document.referenceId === id ? null : document.referenceId,
      subjectId: document.subjectId === id ? null : document.subjectId,
    };
  });
}

export function restate(id: string, change: Stated, words = 'Statement changed'): void {
  const face = getState().faces[id];
  act(words, (document) => ({
    ...afterRestating(document, id, change, face?.at === 'ready' ? face.value : undefined),
    // Another kind is another role.
    ...('kind' in change && document.fresh.length === 0 && isPaired(document, id) && { fresh: seatedIn(document) }),
    scans: document.scans.map((scan) =>
      scan.id === id ? { ...scan, stated: pruned({ ...scan.stated, ...change }) } : scan,
    ),
  }));
}

const isPaired = (document: Document, id: string): boolean =>
  seatedIn(document).length === 2 && seatedIn(document).includes(id);

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

const seatedIn = ({ referenceId, subjectId }: Document): string[] =>
  [referenceId, subjectId].filter((id): id is string => id !== null);

/**
 * Lays a scan on the plate, or takes it off: beside one that lies there alone it makes a pair, by their roles; where two lie,
 * they make room. A pair is only ever measured once both of its scans were chosen.
 */
export function layOnPlate(id: string): void {
  const words = seatedIn(documentNow()).includes(id) ? 'Taken off the plate' : 'Laid on the plate';
  act(words, (document) => {
    const lying = seatedIn(document);
    const next = lying.includes(id) ? lying.filter((one) => one !== id) : lying.length === 1 ? [...lying, id] : [id];
    return { ...emptied(document), fresh: next };
  });
}

/** Lays two scans on the plate, whatever lay there: they are compared. */
export function bringTogether(one: string, other: string): void {
  act('Two brought together', (document) => ({ ...emptied(document), fresh: [one, other] }));
}

const emptied = (document: Document): Document => ({
  ...withoutByHand(document),
  ...{ referenceId: null, subjectId: null, compare: false, findingOpen: false },
});

/** The two change places: what was compared against is judged, and the other way round. */
export function exchangeSeats(): void {
  act('Places exchanged', (document) => ({
    ...withoutByHand(document),
    ...{ referenceId: document.subjectId, subjectId: document.referenceId, fresh: [] },
  }));
}

/** Asks for the pair to be compared and turns to the comparison. */
export function comparePair(): void {
  act('Compared', (document) => ({ ...document, compare: true, findingOpen: true }));
  setState({ step: 'compare' });
}
