import { objectLabel } from '../../core/report/words/index.ts';
import type { GroupTold, ScanTold } from './state/rooms.ts';

export interface TrayRow {
  readonly scan: ScanTold;
  readonly group: GroupTold | undefined;
}

export type ColumnName = 'shelfmark' | 'kind' | 'material' | 'size' | 'date' | 'group';

export const columns: ReadonlyArray<{ readonly name: ColumnName; readonly title: string }> = [
  { name: 'shelfmark', title: 'shelfmark' },
  { name: 'kind', title: 'kind' },
  { name: 'material', title: 'material' },
  { name: 'size', title: 'face' },
  { name: 'date', title: 'document' },
  { name: 'group', title: 'group' },
];

/** The rows in which every word of a search stands somewhere; what cannot be used stands elsewhere. */
export function trayRows(
  scans: readonly ScanTold[],
  groups: ReadonlyMap<number, GroupTold>,
  words: string,
): readonly TrayRow[] {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean);
  return scans
    .filter(({ state }) => state !== 'failed')
    .map((scan) => ({ scan, group: groups.get(scan.scan) }))
    .filter((row) => {
      const text = textOf(row);
      return wanted.every((word) => text.includes(word));
    });
}

const textOf = ({ scan, group }: TrayRow): string => {
  const { kind, material, documentDate, file, instrument } = scan;
  return [objectLabel(scan), kind, material, documentDate, file, instrument, group?.name, group?.id]
    .filter(Boolean)
    .join(' ')
    .toLowerCase();
};

const sortKey: Readonly<Record<ColumnName, (row: TrayRow) => string | number>> = {
  shelfmark: ({ scan }) => objectLabel(scan),
  kind: ({ scan }) => scan.kind,
  material: ({ scan }) => scan.material ?? '',
  size: ({ scan }) => Math.max(scan.widthMm ?? 0, scan.heightMm ?? 0),
  date: ({ scan }) => scan.documentDate ?? '',
  group: ({ group }) => group?.name ?? group?.id ?? '',
};

const inOrder = new Intl.Collator('en', { numeric: true }).compare;

/** Numbers in words by their value; what is not known comes last, whichever way it runs. */
export function sortedRows(
  rows: readonly TrayRow[],
  { by, down }: { readonly by: ColumnName; readonly down: boolean },
): readonly TrayRow[] {
  const value = sortKey[by];
  return [...rows].sort((one, other) => {
    const [a, b] = [value(one), value(other)];
    const empty = Number(!a) - Number(!b);
    const order = typeof a === 'number' && typeof b === 'number' ? a - b : inOrder(String(a), String(b));
    return empty || (down ? -order : order) || one.scan.scan - other.scan.scan;
  });
}
