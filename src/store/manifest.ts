import { parse } from 'papaparse';
import * as z from 'zod';
import { kinds, units } from '../core/scan/index.ts';

/** Columns of a manifest; the first three must be there. */
export const manifestColumns = [
  'file',
  'shelfmark',
  'kind',
  'seal',
  'side',
  'material',
  'unit',
  'scale_uncertainty',
  'instrument',
  'document_date',
  'cast_of',
  'sides_of',
  'scan_of',
] as const;

type Column = (typeof manifestColumns)[number];

/** Text of a cell, null where it is empty. */
const text = z
  .string()
  .default('')
  .transform((value) => value.trim() || null);

const oneOf = <T extends string>(choices: readonly T[]) =>
  text.refine((value): value is T | null => value === null || (choices as readonly string[]).includes(value));

const rowSchema = z.object({
  file: text.refine((value) => value !== null),
  shelfmark: text.refine((value) => value !== null),
  kind: oneOf(kinds).refine((value) => value !== null),
  seal: text,
  side: text,
  material: text,
  unit: oneOf(units),
  scale_uncertainty: text
    .transform((value) => (value === null ? null : Number(value)))
    .refine((value) => value === null || (value > 0 && value <= 20)),
  instrument: text,
  document_date: text,
  cast_of: text,
  sides_of: text,
  scan_of: text,
} satisfies Record<Column, z.ZodType>);

/** One scan as the manifest states it; the last three name other scans, by file or shelfmark. */
export type ManifestRow = z.infer<typeof rowSchema>;

/** A row that cannot be used: `line` counts rows from the head, which is 1. */
export interface RowError {
  readonly line: number;
  readonly file: string;
  readonly words: string;
}

export interface Manifest {
  readonly rows: ReadonlyArray<ManifestRow & { readonly line: number }>;
  readonly errors: readonly RowError[];
}

/** What to do about a cell that is refused. */
const remedies: Readonly<Partial<Record<Column, string>>> = {
  file: 'the column file is empty; name the scan, relative to the folder of the manifest',
  shelfmark: 'the column shelfmark is empty; say which object this is',
  kind: `kind is not one of ${kinds.join(', ')}; say what the scan shows`,
  unit: `unit is not one of ${units.join(', ')}; correct it or leave it empty`,
  scale_uncertainty: 'scale_uncertainty is no percentage above 0 and up to 20; give a number such as 0.3',
};

/**
 * Reads a manifest: CSV with a head, separated by commas, semicolons or tabs, as table programs write it. A head that lacks
 * `file`, `shelfmark` or `kind` is one error of row 1; a row that cannot be used is an error of its own, and the others go on.
 */
export function readManifest(csv: string): Manifest {
  const { data, errors, meta } = parse<Record<string, string>>(csv, {
    header: true,
    skipEmptyLines: 'greedy',
    delimitersToGuess: [',', ';', '\t'],
    transformHeader: (name) =>
      name
        .replace(/^\ufeff/, '')
        .trim()
        .toLowerCase(),
  });
  const missing = ['file', 'shelfmark', 'kind'].filter((name) => !meta.fields?.includes(name));
  if (missing.length > 0) return { rows: [], errors: [headError(missing)] };
  const unknown = (meta.fields ?? []).filter(
    (name) => name !== '' && !(manifestColumns as readonly string[]).includes(name),
  );
  // The library counts the head as a row where it speaks of quotation marks.
  const broken = new Set(errors.filter(({ type }) => type === 'Quotes').map(({ row }) => (row ?? 0) - 1));
  const rows: Array<ManifestRow & { line: number }> = [];
  const refused: RowError[] = unknown.length > 0 ? [unknownColumns(unknown)] : [];
  const firstLine = new Map<string, number>();
  for (const [k, cells] of data.entries()) {
    const line = k + 2;
    const parsed = rowSchema.safeParse(cells);
    const file = cells.file?.trim() ?? '';
    const before = firstLine.get(file);
    const words = broken.has(k)
      ? 'a quotation mark is not closed; close it or leave it out'
      : !parsed.success
        ? remedyFor(parsed.error)
        : before !== undefined
          ? `the same file stands in row ${before}; keep one of the two`
          : undefined;
    if (words !== undefined) refused.push({ line, file, words: `${nameOf(line, file)}: ${words}.` });
    else if (parsed.success) {
      firstLine.set(file, line);
      rows.push({ ...parsed.data, line });
    }
  }
  return { rows, errors: refused };
}

export const nameOf = (line: number, file: string): string => (file ? `row ${line}, ${file}` : `row ${line}`);

const headError = (missing: readonly string[]): RowError => ({
  line: 1,
  file: '',
  words: `row 1: the head lacks ${missing.join(', ')}; the columns are ${manifestColumns.join(', ')}.`,
});

const unknownColumns = (names: readonly string[]): RowError => ({
  line: 1,
  file: '',
  words: `row 1: ${names.join(', ')} ${names.length > 1 ? 'are no columns' : 'is no column'} of a manifest and was passed over; the columns are ${manifestColumns.join(', ')}.`,
});

function remedyFor(error: z.ZodError): string {
  const columns = [...new Set(error.issues.map(({ path }) => String(path[0]) as Column))];
  return columns.map((column) => remedies[column] ?? `${column} cannot be used; correct it`).join('; ');
}
