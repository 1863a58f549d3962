import type { Decision } from '../core/collection/index.ts';
import type { Store } from './database/open.ts';
import type { Db } from './database/tables.ts';
import { decisionIn } from './grouping.ts';
import { lockScans } from './rounds.ts';

/** Whether a decision was kept, or what it did not know of. */
export type Decided =
  | { readonly kept: true }
  | {
      readonly kept: false;
      /** Decisions on these objects that were made since. */
      readonly newer: readonly Decision[];
      /** Objects that are no longer there. */
      readonly gone: readonly string[];
    };

/** Number of the last decision. */
export async function lastDecision(db: Db): Promise<number> {
  const { last } = await db
    .selectFrom('decisions')
    .select(({ fn }) => fn.max('id').as('last'))
    .executeTakeFirstOrThrow();
  return Number(last ?? 0);
}

/**
 * Keeps what a person decided; members are numbers of scans. With `seen`, the last decision that the person knew of, nothing is kept where
 * a later one concerns one of `concerned` (the members, and whoever stands in a group with them), or where a member is gone: the
 * person sees both and chooses. Of two that decide at once about one object one waits for the other.
 */
export async function decide(
  store: Store,
  decision: Decision,
  seen?: { readonly last: number; readonly concerned: readonly string[] },
): Promise<Decided> {
  return store.db.transaction().execute(async (trx) => {
    if (seen) {
      const concerned = [...new Set([...decision.members, ...seen.concerned])];
      await lockScans(store, trx, concerned.map(Number));
      const refused = await unknownTo(trx, decision, seen.last, new Set(concerned));
      if (refused) return refused;
    }
    await addDecision(trx, decision);
    return { kept: true };
  });
}

async function unknownTo(
  trx: Db,
  { members }: Decision,
  last: number,
  concerned: ReadonlySet<string>,
): Promise<Decided | null> {
  const rows = await trx.selectFrom('decisions').selectAll().where('id', '>', last).orderBy('id').execute();
  const newer = rows.map(decisionIn).filter((one) => one.members.some((id) => concerned.has(id)));
  const there = await trx.selectFrom('scans').select('id').where('id', 'in', members.map(Number)).execute();
  const gone = members.filter((id) => !there.some((scan) => String(scan.id) === id));
  return newer.length + gone.length > 0 ? { kept: false, newer, gone } : null;
}

async function addDecision(db: Db, { kind, members, by, at, words }: Decision): Promise<void> {
  await db
    .insertInto('decisions')
    .values({ kind, members: JSON.stringify(members), by_whom: by, at, words })
    .execute();
}
