import type { Store } from './database/open.ts';
import type { Db } from './database/tables.ts';
import { addJobs } from './jobs.ts';

export const roundDefaults = {
  /** So many candidates are verified at a time; the next so many only where one of these was supported. */
  round: 5,
};

/**
 * Adds the verifications of a scan that are due: its likely candidates from the best down, a round at a time, as long as each round has
 * a supported pair in it. So an object without a fellow costs one round, one of a large group as many as it has fellows for; which pairs
 * are verified follows from the findings alone, in whatever order they come. Called whenever its candidates or one of its pairs are new.
 */
export async function addRounds(trx: Db, id: number, { round } = roundDefaults): Promise<void> {
  const others = await trx
    .selectFrom('candidates')
    .select('other_id')
    .where('scan_id', '=', id)
    .where('likely', '=', 1)
    .orderBy('place')
    .execute();
  const ended = await endedPairs(trx, id);
  for (let from = 0; from < others.length; from += round) {
    const due = others.slice(from, from + round).map(({ other_id }) => other_id);
    await addJobs(
      trx,
      due
        .filter((other) => !ended.has(other))
        .map((other) => ({ kind: 'verify', a: Math.min(id, other), b: Math.max(id, other) })),
    );
    if (!due.every((other) => ended.has(other)) || !due.some((other) => ended.get(other) === 'supported')) return;
  }
}

/** Scans that this one was verified with, and the finding; null where the verification failed. */
async function endedPairs(trx: Db, id: number): Promise<Map<number, string | null>> {
  const links = await trx
    .selectFrom('links')
    .select(['a_id', 'b_id', 'finding'])
    .where((is) => is.or([is('a_id', '=', id), is('b_id', '=', id)]))
    .execute();
  const failed = await trx
    .selectFrom('jobs')
    .select(['a_id', 'b_id'])
    .where('kind', '=', 'verify')
    .where('state', '=', 'failed')
    .where((is) => is.or([is('a_id', '=', id), is('b_id', '=', id)]))
    .execute();
  const other = ({ a_id, b_id }: { a_id: number; b_id: number }): number => (a_id === id ? b_id : a_id);
  return new Map([
    ...failed.map((pair) => [other(pair), null] as const),
    ...links.map((pair) => [other(pair), pair.finding] as const),
  ]);
}

/** Two workers that end pairs of one scan at once must see each other's; where writers do not wait by themselves, here they do. */
export async function lockScans({ dialect }: Store, trx: Db, ids: readonly number[]): Promise<void> {
  if (dialect === 'sqlite') return;
  await trx.selectFrom('scans').select('id').where('id', 'in', ids).orderBy('id').forUpdate().execute();
}
