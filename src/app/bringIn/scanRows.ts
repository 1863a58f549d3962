import type { FaceView } from '../../workers/browser/protocol.ts';
import type { Keyed } from '../jobs/progress.ts';
import type { ScanEntry } from '../state/document.ts';

type Faces = Readonly<Record<string, Keyed<FaceView>>>;

export const rowOrders = ['name', 'kind', 'size'] as const;
export type RowOrder = (typeof rowOrders)[number];

/** The scans of a tray: those that can be used, or may be once they are asked, and those that cannot be read. */
export interface ScanRows {
  readonly rows: readonly ScanEntry[];
  readonly unreadable: readonly ScanEntry[];
}

/** Searched by every word of caption, file and kind, and sorted; what is not known yet comes last. */
export function scanRows(scans: readonly ScanEntry[], faces: Faces, words: string, order: RowOrder): ScanRows {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean);
  const cannot = ({ id }: ScanEntry): boolean => {
    const face = faces[id];
    return face?.at === 'failed' && face.failure.code !== 'unitNeeded';
  };
  const told = (scan: ScanEntry): string => `${scan.title} ${scan.name} ${kindOf(scan, faces)}`.toLowerCase();
  const rows = scans.filter((scan) => !cannot(scan) && wanted.every((word) => told(scan).includes(word)));
  return { rows: rows.sort((a, b) => compare(a, b, faces, order)), unreadable: scans.filter(cannot) };
}

/** What asks for something, or cannot be read, stands on top, where the eye is, what came last first; the others keep their order. */
export function inNeedFirst(scans: readonly ScanEntry[], faces: Faces): ScanEntry[] {
  const inNeed = ({ id }: ScanEntry): boolean => faces[id]?.at === 'failed';
  return [...scans.filter(inNeed).reverse(), ...scans.filter((scan) => !inNeed(scan))];
}

function compare(a: ScanEntry, b: ScanEntry, faces: Faces, order: RowOrder): number {
  const byName = inOrder(a.title, b.title) || inOrder(a.name, b.name);
  if (order === 'name') return byName;
  if (order === 'size') return sizeOf(b, faces) - sizeOf(a, faces) || byName;
  const [x, y] = [kindOf(a, faces), kindOf(b, faces)];
  return Number(!x) - Number(!y) || inOrder(x, y) || byName;
}

/** As stated, else as it seems; empty as long as it is not read. */
const kindOf = ({ id, stated }: ScanEntry, faces: Faces): string => {
  const face = faces[id];
  return stated.kind ?? (face?.at === 'ready' ? face.value.kind : '');
};

const sizeOf = ({ id }: ScanEntry, faces: Faces): number => {
  const face = faces[id];
  return face?.at === 'ready' ? Math.max(face.value.outline.widthMm, face.value.outline.heightMm) : 0;
};

const inOrder = new Intl.Collator('en', { numeric: true }).compare;
