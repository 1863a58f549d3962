import type { Db, JobKind } from './database/tables.ts';

/** Jobs by kind and state. */
export async function countJobs(db: Db): Promise<Array<{ kind: JobKind; state: string; count: number }>> {
  const rows = await db
    .selectFrom('jobs')
    .select(({ fn }) => ['kind', 'state', fn.countAll().as('count')])
    .groupBy(['kind', 'state'])
    .execute();
  return rows.map(({ kind, state, count }) => ({ kind, state, count: Number(count) }));
}

/** Gives jobs another chance that were given up or failed. */
export async function tryAgain(db: Db): Promise<void> {
  await db.updateTable('jobs').set({ state: 'waiting', tries: 0, error: null }).where('state', '=', 'failed').execute();
}

/** Jobs about prepared scans that could not be done, with why: not the scans' fault. */
export async function failedJobs(db: Db): Promise<Array<{ kind: JobKind; a: number; b: number; error: string }>> {
  const rows = await db
    .selectFrom('jobs')
    .selectAll()
    .where('state', '=', 'failed')
    .where('kind', '<>', 'prepare')
    .execute();
  return rows.map(({ kind, a_id, b_id, error }) => ({ kind, a: a_id, b: b_id, error: error ?? '' }));
}

/** Scans that wait to be prepared. */
export async function waitingScans(db: Db): Promise<number[]> {
  const jobs = db.selectFrom('jobs').select('a_id').where('kind', '=', 'prepare').where('state', '=', 'waiting');
  return (await jobs.orderBy('id').execute()).map(({ a_id }) => a_id);
}
