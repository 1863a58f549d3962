import type { Transaction } from 'kysely';
import { databaseNow, type Store } from './database/open.ts';
import type { Db, JobKind, Tables } from './database/tables.ts';

/** One piece of work that somebody holds. `b` is 0 where it is about one scan. */
export interface Job {
  readonly id: number;
  readonly kind: JobKind;
  readonly a: number;
  readonly b: number;
  /** How often it was taken, this time included. */
  readonly tries: number;
}

export const jobDefaults = {
  /** A job that is not ended so long after it was taken is free again; as long again with every try. */
  leaseMs: 600_000,
  /** A job that ended its worker so often is given up. A kill from outside looks like a crash from here, and is no reason to lose a pair: hence many. */
  mostTries: 100,
};

/** In this order; scans are searched for when all are prepared, so that what is found does not hang on who was first. */
const order: readonly JobKind[] = ['prepare', 'search', 'verify'];

/** Adds jobs that are not there yet; with `again`, those that were done or failed are to be done once more. */
export async function addJobs(
  db: Db,
  jobs: ReadonlyArray<{ readonly kind: JobKind; readonly a: number; readonly b?: number }>,
  again = false,
): Promise<void> {
  for (const { kind, a, b = 0 } of jobs)
    await db
      .insertInto('jobs')
      .values({ kind, a_id: a, b_id: b, state: 'waiting' })
      .onConflict((conflict) => {
        const same = conflict.columns(['kind', 'a_id', 'b_id']);
        return again
          ? same.doUpdateSet({ state: 'waiting', tries: 0, worker: null, lease_until: null, error: null, behind: 0 })
          : same.doNothing();
      })
      .execute();
}

/** Puts a job that was done once more on the list, behind all of its kind, those that are still to come included. */
export async function addBehind(
  db: Db,
  { kind, a, b }: { readonly kind: JobKind; readonly a: number; readonly b: number },
): Promise<void> {
  await db.deleteFrom('jobs').where('kind', '=', kind).where('a_id', '=', a).where('b_id', '=', b).execute();
  await db.insertInto('jobs').values({ kind, a_id: a, b_id: b, state: 'waiting', behind: 1 }).execute();
}

/** Takes the next job for `worker`, or null where there is none to be had now. */
export async function takeJob(store: Store, worker: string, options = jobDefaults): Promise<Job | null> {
  const now = await databaseNow(store);
  return store.db.transaction().execute(async (trx) => {
    for (const kind of order) {
      if (kind === 'search' && (await isAnyLeft(trx, 'prepare'))) return null;
      const found = (await nextOf(store, trx, kind, null)) ?? (await nextOf(store, trx, kind, now));
      if (!found) continue;
      const tries = found.tries + 1;
      await trx
        .updateTable('jobs')
        .set({ state: 'taken', worker, tries, lease_until: now + options.leaseMs * tries })
        .where('id', '=', found.id)
        .execute();
      return { id: found.id, kind, a: found.a_id, b: found.b_id, tries };
    }
    return null;
  });
}

/** The first job that waits, or, where a time is named, the first whose lease had lapsed by then. Two questions: each is answered from an index. */
function nextOf({ dialect }: Store, trx: Db, kind: JobKind, lapsedBy: number | null) {
  let free = trx
    .selectFrom('jobs')
    .select(['id', 'kind', 'a_id', 'b_id', 'tries'])
    .where('kind', '=', kind)
    .where('state', '=', lapsedBy === null ? 'waiting' : 'taken')
    .orderBy('behind')
    .orderBy('id')
    .limit(1);
  if (lapsedBy !== null) free = free.where('lease_until', '<', lapsedBy);
  // Where writers do not wait for one another, a row that another is just taking is passed over.
  if (dialect === 'postgres') free = free.forUpdate().skipLocked();
  return free.executeTakeFirst();
}

async function isAnyLeft(db: Db, kind: JobKind): Promise<boolean> {
  const states = ['waiting', 'taken'] as const;
  const left = await db.selectFrom('jobs').select('id').where('kind', '=', kind).where('state', 'in', states).limit(1);
  return (await left.executeTakeFirst()) !== undefined;
}

/**
 * Ends a job and writes what came of it in one transaction: both or neither, and once. False, and nothing written, where the job
 * is no longer this worker's.
 */
export async function endJob(
  store: Store,
  { id, tries }: Job,
  worker: string,
  write: (trx: Transaction<Tables>) => Promise<void>,
  error: string | null = null,
): Promise<boolean> {
  return untangled(store, async (trx) => {
    const { numUpdatedRows } = await trx
      .updateTable('jobs')
      .set({ state: error === null ? 'done' : 'failed', worker: null, lease_until: null, error })
      .where('id', '=', id)
      .where('state', '=', 'taken')
      .where('worker', '=', worker)
      .where('tries', '=', tries)
      .executeTakeFirst();
    if (numUpdatedRows !== 1n) return false;
    await write(trx);
    return true;
  });
}

/** PostgreSQL's codes for transactions that it undid because they stood in one another's way. */
const tangled = new Set(['40P01', '40001']);

/** A transaction that is done again where the database undid it, its work being free of other effects. */
async function untangled<T>({ db }: Store, work: (trx: Transaction<Tables>) => Promise<T>): Promise<T> {
  for (let tries = 1; ; tries++)
    try {
      return await db.transaction().execute(work);
    } catch (error) {
      if (tries === 10 || !tangled.has(String((error as { code?: unknown }).code))) throw error;
    }
}

/** Frees what workers hold that are known to have ended; a job that is given back willingly has not been tried. */
export async function freeJobs(db: Db, isGone: (worker: string) => boolean): Promise<void> {
  const held = await db.selectFrom('jobs').select('worker').distinct().where('state', '=', 'taken').execute();
  const gone = held.flatMap(({ worker }) => (worker !== null && isGone(worker) ? [worker] : []));
  if (gone.length === 0) return;
  await db
    .updateTable('jobs')
    .set({ state: 'waiting', worker: null, lease_until: null })
    .where('worker', 'in', gone)
    .execute();
}
