import { statSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Insertable, Selectable } from 'kysely';
import type { Store } from './database/open.ts';
import type { Db, KnownTable, ScansTable } from './database/tables.ts';
import { addJobs } from './jobs.ts';
import { type ManifestRow, nameOf, type RowError } from './manifest.ts';

export type ScanRow = Selectable<ScansTable>;

/** What came of the rows of a manifest. */
export interface Catalogued {
  readonly added: number;
  /** Stated otherwise than before, or another file under the same name: prepared again. */
  readonly changed: number;
  readonly unchanged: number;
  readonly errors: readonly RowError[];
}

/** What is stated of a scan decides how it is read; the rest is only shown. */
const decisive = ['kind', 'material', 'unit', 'scale_uncertainty', 'stamp'] as const;

/**
 * Puts the rows of a manifest into the catalogue, in one transaction, with a job for each scan that has to be prepared. A scan that is
 * there already keeps what was made of it, unless its file or what decides its reading changed, or it could not be used before.
 */
export async function addScans(
  { db }: Store,
  rows: ReadonlyArray<ManifestRow & { readonly line: number }>,
  folder: string,
): Promise<Catalogued> {
  return db.transaction().execute(async (trx) => {
    const counts = { added: 0, changed: 0, unchanged: 0 };
    const listed = new Set(rows.map(({ file }) => resolve(folder, file as string)));
    const scans = rows.map((row) => ({
      line: row.line,
      file: row.file as string,
      stated: scanOf(row, folder, listed),
    }));
    for (const { stated } of scans) counts[await addScan(trx, stated)]++;
    await relate(trx);
    return { ...counts, errors: await unknownNames(trx, scans) };
  });
}

async function addScan(db: Db, stated: Insertable<ScansTable>): Promise<'added' | 'changed' | 'unchanged'> {
  const before = await db.selectFrom('scans').selectAll().where('path', '=', stated.path).executeTakeFirst();
  if (!before) {
    const { id } = await db.insertInto('scans').values(stated).returning('id').executeTakeFirstOrThrow();
    await addJobs(db, [{ kind: 'prepare', a: id }]);
    return 'added';
  }
  const again = before.state === 'failed' || decisive.some((name) => before[name] !== (stated[name] ?? null));
  const { state, error, ...shown } = stated;
  await db
    .updateTable('scans')
    .set(again ? stated : shown)
    .where('id', '=', before.id)
    .execute();
  if (again) await addJobs(db, [{ kind: 'prepare', a: before.id }], true);
  return again ? 'changed' : 'unchanged';
}

function scanOf({ file, ...row }: ManifestRow, folder: string, listed: ReadonlySet<string>): Insertable<ScansTable> {
  const path = resolve(folder, file as string);
  const { shelfmark, kind, seal, side, material, unit, scale_uncertainty, instrument, document_date } = row;
  return {
    path,
    stamp: stampOf(path),
    shelfmark: shelfmark as string,
    kind: kind as string,
    ...{ seal, side, material, unit, scale_uncertainty, instrument, document_date },
    cast_of: named(row.cast_of, folder, listed),
    sides_of: named(row.sides_of, folder, listed),
    scan_of: named(row.scan_of, folder, listed),
    state: 'waiting',
    error: null,
  };
}

/** What a link names: a file of the manifest, or one that is there, by its whole path, else a shelfmark as it stands. */
function named(value: string | null, folder: string, listed: ReadonlySet<string>): string | null {
  if (value === null) return null;
  const path = resolve(folder, value);
  return listed.has(path) || statSync(path, { throwIfNoEntry: false })?.isFile() ? path : value;
}

function stampOf(path: string): string {
  const stat = statSync(path, { throwIfNoEntry: false });
  return stat ? `${stat.size} ${Math.round(stat.mtimeMs)}` : 'absent';
}

const relations = [
  ['cast_of', 'castOf'],
  ['sides_of', 'sidesOf'],
  ['scan_of', 'scansOf'],
] as const;

/** Makes the relations anew from what all scans state: a link may name a scan that was added later. */
async function relate(db: Db): Promise<void> {
  const scans = await db.selectFrom('scans').selectAll().execute();
  const find = finder(scans);
  const known = new Map<string, Insertable<KnownTable>>();
  for (const scan of scans)
    for (const [column, relation] of relations)
      for (const other of find(scan[column]))
        if (other.id !== scan.id)
          known.set(`${scan.id} ${other.id} ${relation}`, { a_id: scan.id, b_id: other.id, relation });
  await db.deleteFrom('known').execute();
  for (const row of known.values()) await db.insertInto('known').values(row).execute();
}

function finder(scans: readonly ScanRow[]): (name: string | null) => readonly ScanRow[] {
  const byPath = new Map(scans.map((scan) => [scan.path, [scan]]));
  const byShelfmark = new Map<string, ScanRow[]>();
  for (const scan of scans) byShelfmark.set(scan.shelfmark, [...(byShelfmark.get(scan.shelfmark) ?? []), scan]);
  return (name) => (name === null ? [] : (byPath.get(name) ?? byShelfmark.get(name) ?? []));
}

/** Links of these rows that name nothing of the collection. */
async function unknownNames(
  db: Db,
  rows: ReadonlyArray<{ readonly line: number; readonly file: string; readonly stated: Insertable<ScansTable> }>,
): Promise<RowError[]> {
  const find = finder(await db.selectFrom('scans').selectAll().execute());
  return rows.flatMap(({ line, file, stated }) =>
    relations.flatMap(([column]) => {
      const name = stated[column] ?? null;
      if (name === null || find(name).length > 0) return [];
      const words = `${nameOf(line, file)}: ${column} names "${name}", which is no file and no shelfmark of the collection; correct it.`;
      return [{ line, file, words }];
    }),
  );
}

/** Scans that could not be used, with why. */
export const failedScans = (db: Db): Promise<ScanRow[]> =>
  db.selectFrom('scans').selectAll().where('state', '=', 'failed').orderBy('id').execute();
