import type { Transaction } from 'kysely';
import type { Fit } from '../core/fit/index.ts';
import {
  judgeMeasured,
  measureWeighed,
  type PreparedScan,
  prepareScan,
  type ScanInput,
  weighPrepared,
} from '../core/pipeline.ts';
import type { ScanRow } from './catalogue.ts';
import { databaseNow, type Store } from './database/open.ts';
import type { Tables } from './database/tables.ts';
import { getFile, putFiles } from './files.ts';
import { addBehind, addJobs, type Job } from './jobs.ts';
import { imageArea, packFace, unpackFace } from './keptFace.ts';
import { addRounds, lockScans } from './rounds.ts';
import { type FaceIndex, type FaceSearch, SearchTable } from './search.ts';
import { linkOf, weighedLink } from './verifiedPair.ts';

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

/** What one worker remembers: nothing that comes of a job hangs on it. */
export class Memory {
  readonly table: SearchTable;
  /** Fits of pairs whose surfaces are still to be read, by the files of the two faces. */
  readonly fits = new Map<string, Fit>();
  private readonly faces = new Map<string, PreparedScan>();
  private readonly folder: string;

  constructor(store: Store, search: FaceSearch) {
    this.table = new SearchTable(store, search);
    this.folder = store.folder;
  }

  keepFit(pair: string, fit: Fit): void {
    this.fits.set(pair, fit);
    for (const old of this.fits.keys()) if (this.fits.size > mostFits) this.fits.delete(old);
  }

  /** A kept face; the last few stay unpacked, since one object is compared with many. */
  face(relief: string): PreparedScan {
    const face = this.faces.get(relief) ?? unpackFace(getFile(this.folder, 'relief', relief));
    this.faces.delete(relief);
    this.faces.set(relief, face);
    for (const old of this.faces.keys()) if (this.faces.size > mostFaces) this.faces.delete(old);
    return face;
  }
}

/** Unpacked faces that are remembered: one of 640 cells is 30 MB. */
const mostFaces = 3;

/** Fits that are remembered, of some 10 kB each: without one the pair is fitted again. */
const mostFits = 3000;

/** Does one job, all but the writing. Throws ScanError for a scan that cannot be used. */
export function doJob(store: Store, memory: Memory, job: Job, tools: Tools): Promise<Write> {
  if (job.kind === 'prepare') return prepare(store, job.a, tools);
  if (job.kind === 'search') return search(store, memory.table, job.a);
  return verify(store, memory, job, tools);
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

/**
 * Compares two kept faces, the lower number as reference, in two turns: the finding, so that an object has its place soon; then, for what
 * is supported, descent and state from the surfaces, by the same job put behind all findings.
 */
async function verify(store: Store, memory: Memory, { a, b }: Job, { tool }: Tools): Promise<Write> {
  const [one, other] = [await reliefOf(store, a), await reliefOf(store, b)];
  const pair = `${one} ${other}`;
  const faces = [memory.face(one), memory.face(other)] as const;
  const known = memory.fits.get(pair);
  memory.fits.delete(pair);
  const weighed = weighPrepared(...faces, {}, {}, known);
  if (weighed.weighed && !(await isWeighed(store, a, b))) {
    const link = weighedLink({ ...weighed, ...weighed.weighed });
    const unread = link.surfaces_read === 0;
    if (unread) memory.keepFit(pair, weighed.fit);
    return linkWritten(store, a, b, { ...link, by_tool: tool }, unread);
  }
  const link = linkOf(judgeMeasured(measureWeighed(weighed)));
  return linkWritten(store, a, b, { ...link, by_tool: tool }, false);
}

/** Whether the finding of a pair is known and its surfaces are not read yet. */
async function isWeighed({ db }: Store, a: number, b: number): Promise<boolean> {
  const link = db.selectFrom('links').select('surfaces_read').where('a_id', '=', a).where('b_id', '=', b);
  return (await link.executeTakeFirst())?.surfaces_read === 0;
}

function linkWritten(
  store: Store,
  a: number,
  b: number,
  made: ReturnType<typeof linkOf> & { by_tool: string },
  unread: boolean,
): Write {
  return async (trx) => {
    await lockScans(store, trx, [a, b]);
    await trx
      .insertInto('links')
      .values({ a_id: a, b_id: b, ...made })
      .onConflict((conflict) => conflict.columns(['a_id', 'b_id']).doUpdateSet(made))
      .execute();
    await addRounds(trx, a);
    await addRounds(trx, b);
    if (unread) await addBehind(trx, { kind: 'verify', a, b });
  };
}

/** The face of a scan as it was kept. */
export async function keptFace(store: Store, id: number): Promise<PreparedScan> {
  return unpackFace(getFile(store.folder, 'relief', await reliefOf(store, id)));
}

async function reliefOf({ db }: Store, id: number): Promise<string> {
  const { relief } = await db.selectFrom('faces').select('relief').where('scan_id', '=', id).executeTakeFirstOrThrow();
  return relief;
}
