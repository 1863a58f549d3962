import type { Transaction } from 'kysely';
import { comparePrepared, type PreparedScan, prepareScan, type ScanInput } from '../core/pipeline.ts';
import type { ScanRow } from './catalogue.ts';
import { databaseNow, type Store } from './database/open.ts';
import type { Tables } from './database/tables.ts';
import { getFile, putFiles } from './files.ts';
import { addJobs, type Job } from './jobs.ts';
import { imageArea, packFace, unpackFace } from './keptFace.ts';
import { addRounds, lockScans } from './rounds.ts';
import type { FaceIndex, FaceSearch, SearchTable } from './search.ts';
import { linkOf } from './verifiedPair.ts';

/** What the steps need from outside. */
export interface Tools {
  readonly search: FaceSearch;
  /** The scan file of a row, with what is stated of it. */
  read(row: ScanRow): ScanInput;
  /** A small picture of the face, PNG. */
  picture(prepared: PreparedScan): Uint8Array;
  /** Version and build. */
  readonly tool: string;
}

/** Writes what came of a job, inside the transaction that ends it. */
export type Write = (trx: Transaction<Tables>) => Promise<void>;

/** Does one job, all but the writing. Throws ScanError for a scan that cannot be used. */
export function doJob(store: Store, table: SearchTable, job: Job, tools: Tools): Promise<Write> {
  if (job.kind === 'prepare') return prepare(store, job.a, tools);
  if (job.kind === 'search') return search(store, table, job.a);
  return verify(store, job.a, job.b, tools);
}

/** Finds and keeps the face of a scan; what was found about it before is void, and it is to be searched for. */
async function prepare(store: Store, id: number, tools: Tools): Promise<Write> {
  const row = await store.db.selectFrom('scans').selectAll().where('id', '=', id).executeTakeFirstOrThrow();
  const prepared = await prepareScan(tools.read(row));
  const { version, global, local } = tools.search.index(prepared.face);
  const [relief, picture, localFile] = await putFiles(store.folder, [
    ['relief', packFace(prepared)],
    ['picture', tools.picture(prepared)],
    ['local', local],
  ]);
  const { face, scan } = prepared;
  const kept = {
    source: scan.sha256,
    ...{ relief, picture, local: localFile },
    global: new Uint8Array(global),
    index_version: version,
    sense: face.sense,
    width_mm: face.outline.widthMm,
    height_mm: face.outline.heightMm,
    image_mm2: imageArea(face),
    prepared_at: await databaseNow(store),
  };
  return async (trx) => {
    await forget(trx, id);
    await trx
      .insertInto('faces')
      .values({ scan_id: id, ...kept })
      .onConflict((conflict) => conflict.column('scan_id').doUpdateSet(kept))
      .execute();
    await trx.updateTable('scans').set({ state: 'ready', error: null }).where('id', '=', id).execute();
    await addJobs(trx, [{ kind: 'search', a: id }], true);
  };
}

/** Takes away what rests on an earlier face of this scan. */
async function forget(trx: Transaction<Tables>, id: number): Promise<void> {
  await trx
    .deleteFrom('links')
    .where((is) => is.or([is('a_id', '=', id), is('b_id', '=', id)]))
    .execute();
  await trx
    .deleteFrom('candidates')
    .where((is) => is.or([is('scan_id', '=', id), is('other_id', '=', id)]))
    .execute();
  await trx
    .deleteFrom('jobs')
    .where('kind', '=', 'verify')
    .where((is) => is.or([is('a_id', '=', id), is('b_id', '=', id)]))
    .execute();
}

/** Puts candidates for a scan forward; the likeliest are to be verified. */
async function search(store: Store, table: SearchTable, id: number): Promise<Write> {
  const found = await table.candidates(await indexOf(store, id), id);
  const rows = found.map(({ id: other_id, score, why, likely }, place) => ({
    ...{ scan_id: id, other_id, place, score },
    likely: likely ? 1 : 0,
    why: JSON.stringify(why),
  }));
  return async (trx) => {
    await lockScans(store, trx, [id]);
    await trx.deleteFrom('candidates').where('scan_id', '=', id).execute();
    if (rows.length > 0) await trx.insertInto('candidates').values(rows).execute();
    await addRounds(trx, id);
  };
}

async function indexOf({ db, folder }: Store, id: number): Promise<FaceIndex> {
  const row = await db
    .selectFrom('faces')
    .select(['index_version', 'global', 'local'])
    .where('scan_id', '=', id)
    .executeTakeFirstOrThrow();
  return { version: row.index_version, global: new Uint8Array(row.global), local: getFile(folder, 'local', row.local) };
}

/** Compares two kept faces, the lower number as reference. */
async function verify(store: Store, a: number, b: number, { tool }: Tools): Promise<Write> {
  const link = linkOf(comparePrepared(await keptFace(store, a), await keptFace(store, b)));
  return async (trx) => {
    await lockScans(store, trx, [a, b]);
    const made = { ...link, by_tool: tool };
    await trx
      .insertInto('links')
      .values({ a_id: a, b_id: b, ...made })
      .onConflict((conflict) => conflict.columns(['a_id', 'b_id']).doUpdateSet(made))
      .execute();
    await addRounds(trx, a);
    await addRounds(trx, b);
  };
}

/** The face of a scan as it was kept. */
export async function keptFace({ db, folder }: Store, id: number): Promise<PreparedScan> {
  const { relief } = await db.selectFrom('faces').select('relief').where('scan_id', '=', id).executeTakeFirstOrThrow();
  return unpackFace(getFile(folder, 'relief', relief));
}
