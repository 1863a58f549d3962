import { afterEach, describe, expect, it } from 'vitest';
import type { Store } from '../../src/store/database/open.ts';
import { decide } from '../../src/store/decide.ts';
import { groupedOf } from '../../src/store/grouping.ts';
import { addJobs, endJob, takeJob } from '../../src/store/jobs.ts';
import { removeScan } from '../../src/store/remove.ts';
import { dialects, newCollection } from './databases.ts';
import { filled, supported } from './filled.ts';
import { snapshotOf } from './snapshot.ts';

let made: Awaited<ReturnType<typeof newCollection>> | null = null;
afterEach(async () => {
  await made?.remove();
  made = null;
});
const opened = async (dialect: 'sqlite' | 'postgres', count: number): Promise<[Store, number[]]> => {
  made = await newCollection(dialect);
  const store = await made.open();
  return [store, await filled(store, count)];
};
const removal = { by: 'Anna', at: '2026-11-28T12:00:00.000Z', words: 'twice' };

describe.each(dialects)('taking a scan out, on %s', (dialect) => {
  it('takes all that rests on it, no file of another, and says who did it', async () => {
    const [store, [a, b, c]] = await opened(dialect, 3);
    await supported(store, a, b, 9);
    await supported(store, b, c, 9);
    await store.db.insertInto('known').values({ a_id: b, b_id: a, relation: 'castOf' }).execute();
    const candidate = { score: 9, likely: 1, why: '{}' };
    await store.db
      .insertInto('candidates')
      .values([
        { scan_id: a, other_id: b, place: 0, ...candidate },
        { scan_id: a, other_id: c, place: 1, ...candidate },
      ])
      .execute();
    await addJobs(store.db, [{ kind: 'verify', a, b }]);
    expect(await removeScan(store, b, removal)).toBe(true);
    // Throws where a face's file is gone, or one lies there that nothing names.
    const left = (await snapshotOf(store)) as Record<string, Array<Record<string, unknown>>>;
    expect(left.scans.map(({ id }) => id)).toEqual([a, c]);
    expect(left.links).toEqual([]);
    expect(left.known).toEqual([]);
    expect(left.candidates.map(({ other_id }) => other_id)).toEqual([c]);
    // What asked for it goes on with the next.
    expect(left.jobs).toEqual([{ kind: 'verify', a_id: a, b_id: c, state: 'waiting' }]);
    const [row] = await store.db.selectFrom('removals').selectAll().execute();
    expect(row).toMatchObject({ shelfmark: 'S 1', by_whom: 'Anna', words: 'twice' });
    expect(await removeScan(store, b, removal)).toBe(false);
  });

  it('leaves a job on it that is under way without effect', async () => {
    const [store, [a, b]] = await opened(dialect, 2);
    await addJobs(store.db, [{ kind: 'verify', a, b }]);
    const job = await takeJob(store, 'w');
    await removeScan(store, b, removal);
    let wrote = false;
    const ended = await endJob(store, job as NonNullable<typeof job>, 'w', async () => {
      wrote = true;
    });
    expect([ended, wrote]).toEqual([false, false]);
  });
});

describe.each(dialects)('groups from an earlier result, on %s', (dialect) => {
  it('are those from scratch after every change: links, decisions, objects that come and go', async () => {
    const [store, ids] = await opened(dialect, 12);
    let before = await groupedOf(store.db);
    const changes: Array<() => Promise<unknown>> = [
      () => supported(store, ids[0], ids[1], 12),
      () => supported(store, ids[2], ids[3], 12),
      () => supported(store, ids[1], ids[4], 12),
      () => decide(store, { kind: 'join', members: [ids[4], ids[5]].map(String), by: 'A', at: '1', words: '' }),
      () => decide(store, { kind: 'name', members: [String(ids[0])], by: 'A', at: '2', words: 'Oak' }),
      () => supported(store, ids[6], ids[7], 3),
      () => decide(store, { kind: 'split', members: [ids[0], ids[1]].map(String), by: 'A', at: '3', words: '' }),
      // What tied two others is gone.
      () => removeScan(store, ids[4], removal),
      () => store.db.deleteFrom('links').where('a_id', '=', ids[2]).execute(),
      () => store.db.updateTable('links').set({ finding: 'against' }).where('a_id', '=', ids[6]).execute(),
      () => removeScan(store, ids[5], removal),
    ];
    for (const change of changes) {
      await change();
      const after = await groupedOf(store.db, before);
      expect(after.grouping).toEqual((await groupedOf(store.db)).grouping);
      before = after;
    }
  });
});
