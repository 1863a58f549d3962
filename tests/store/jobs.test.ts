import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Store } from '../../src/store/database/open.ts';
import { countJobs, tryAgain } from '../../src/store/jobList.ts';
import { addBehind, addJobs, endJob, freeJobs, type Job, jobDefaults, takeJob } from '../../src/store/jobs.ts';
import { admin, dialects, newCollection, postgresUrl } from './databases.ts';

const scan = (name: string) => ({ path: name, shelfmark: name, stamp: '', kind: 'cast', state: 'waiting' }) as const;

/** How often each scan's job took effect: its notes. */
const effects = async ({ db }: Store): Promise<Map<string, number>> => {
  const rows = await db.selectFrom('decisions').select('members').execute();
  const counts = new Map<string, number>();
  for (const { members } of rows) counts.set(members, (counts.get(members) ?? 0) + 1);
  return counts;
};
const note = (members: string) => ({ kind: 'note', members, by_whom: 'test', at: '', words: '' }) as const;

describe.each(dialects)('jobs on %s', (dialect) => {
  let collection: Awaited<ReturnType<typeof newCollection>>;
  let store: Store;
  beforeEach(async () => {
    collection = await newCollection(dialect);
    store = await collection.open();
    for (let k = 1; k <= 40; k++)
      await store.db
        .insertInto('scans')
        .values(scan(`s${k}`))
        .execute();
  });
  afterEach(() => collection.remove());
  const take = (worker: string, leaseMs = jobDefaults.leaseMs): Promise<Job | null> =>
    takeJob(store, worker, { ...jobDefaults, leaseMs });

  it('are added once, however often', async () => {
    for (let k = 0; k < 3; k++) await addJobs(store.db, [{ kind: 'prepare', a: 1 }]);
    expect(await countJobs(store.db)).toEqual([{ kind: 'prepare', state: 'waiting', count: 1 }]);
  });

  it('are taken by one of several workers at once, each once', async () => {
    await addJobs(
      store.db,
      Array.from({ length: 40 }, (_, k) => ({ kind: 'verify' as const, a: k + 1, b: 99 })),
    );
    const others = [store, await collection.open(), await collection.open(), await collection.open()];
    const taken = await Promise.all(
      others.map(async (one, w) => {
        const mine: number[] = [];
        for (let job = await takeJob(one, `w${w}`); job; job = await takeJob(one, `w${w}`)) mine.push(job.a);
        return mine;
      }),
    );
    expect(taken.flat().sort((a, b) => a - b)).toEqual(Array.from({ length: 40 }, (_, k) => k + 1));
  });

  it('come in their order; a search waits until the last scan is prepared', async () => {
    await addJobs(store.db, [
      { kind: 'verify', a: 1, b: 2 },
      { kind: 'search', a: 1 },
      { kind: 'prepare', a: 2 },
    ]);
    const prepare = (await take('one')) as Job;
    expect(prepare.kind).toBe('prepare');
    expect(await take('two')).toBeNull();
    await endJob(store, prepare, 'one', async () => undefined);
    expect((await take('two'))?.kind).toBe('search');
    expect((await take('two'))?.kind).toBe('verify');
  });

  it('that are put behind come after those of their kind that are added later', async () => {
    await addJobs(store.db, [
      { kind: 'verify', a: 1, b: 2 },
      { kind: 'verify', a: 1, b: 3 },
    ]);
    await endJob(store, (await take('one')) as Job, 'one', (trx) => addBehind(trx, { kind: 'verify', a: 1, b: 2 }));
    await addJobs(store.db, [{ kind: 'verify', a: 2, b: 3 }]);
    expect([await take('one'), await take('one'), await take('one')].map((job) => [job?.a, job?.b])).toEqual([
      [1, 3],
      [2, 3],
      [1, 2],
    ]);
  });

  it('that were not ended in time are taken again, and then the first worker cannot end them', async () => {
    await addJobs(store.db, [{ kind: 'prepare', a: 1 }]);
    const first = (await take('slow', -1)) as Job;
    const second = (await take('quick')) as Job;
    expect(second).toEqual({ ...first, tries: 2 });
    const write = (who: string) => async (trx: Parameters<Parameters<typeof endJob>[3]>[0]) =>
      void (await trx.insertInto('decisions').values(note(who)).execute());
    expect(await endJob(store, first, 'slow', write('slow'))).toBe(false);
    expect(await endJob(store, second, 'quick', write('quick'))).toBe(true);
    expect(await endJob(store, second, 'quick', write('quick'))).toBe(false);
    expect([...(await effects(store)).entries()]).toEqual([['quick', 1]]);
  });

  it('whose results cannot be written are not ended', async () => {
    await addJobs(store.db, [{ kind: 'prepare', a: 1 }]);
    const job = (await take('one')) as Job;
    const failing = endJob(store, job, 'one', async (trx) => {
      await trx.insertInto('decisions').values(note('one')).execute();
      throw new Error('the disk is full');
    });
    await expect(failing).rejects.toThrow('the disk is full');
    expect(await countJobs(store.db)).toEqual([{ kind: 'prepare', state: 'taken', count: 1 }]);
    expect((await effects(store)).size).toBe(0);
  });

  it('of workers that are gone are free at once', async () => {
    await addJobs(store.db, [
      { kind: 'prepare', a: 1 },
      { kind: 'prepare', a: 2 },
    ]);
    await take('gone');
    await take('there');
    await freeJobs(store.db, (worker) => worker === 'gone');
    expect(await take('next')).toMatchObject({ a: 1, tries: 2 });
    expect(await take('next')).toBeNull();
  });

  it("that the database undid, because two stood in one another's way, are ended all the same", async () => {
    await addJobs(store.db, [{ kind: 'prepare', a: 1 }]);
    const job = (await take('one')) as Job;
    let tries = 0;
    const ended = await endJob(store, job, 'one', async (trx) => {
      await trx.insertInto('decisions').values(note('one')).execute();
      if (++tries < 3) throw Object.assign(new Error('deadlock detected'), { code: '40P01' });
    });
    expect([ended, tries]).toEqual([true, 3]);
    expect([...(await effects(store)).values()]).toEqual([1]);
  });

  it('that failed are left alone until they are to be tried again', async () => {
    await addJobs(store.db, [{ kind: 'prepare', a: 1 }]);
    await endJob(store, (await take('one')) as Job, 'one', async () => undefined, 'why');
    await addJobs(store.db, [{ kind: 'prepare', a: 1 }]);
    expect(await take('one')).toBeNull();
    await tryAgain(store.db);
    expect(await take('one')).toMatchObject({ a: 1, tries: 1 });
  });

  it('keep to their rules in the database itself', async () => {
    const wrong = { kind: 'prepare', a_id: 4711, b_id: 0, state: 'waiting' } as const;
    await expect(store.db.insertInto('jobs').values(wrong).execute()).rejects.toThrow(/foreign key/i);
    await expect(
      store.db
        .insertInto('jobs')
        .values({ ...wrong, a_id: 1, state: 'taken' })
        .execute(),
    ).rejects.toThrow(/taken_by_one|check/i);
    await expect(store.db.insertInto('scans').values(scan('s1')).execute()).rejects.toThrow(/unique/i);
    const link = { a_id: 2, b_id: 1, finding: 'supported', strength: 'strong', state: 'sameState', by_tool: '' };
    await expect(store.db.insertInto('links').values(link).execute()).rejects.toThrow(/links_in_order|check/i);
  });
});

describe.each(dialects)('a new collection on %s', (dialect) => {
  it('opened by several at once is made once', async () => {
    const collection = await newCollection(dialect);
    try {
      const stores = await Promise.all([1, 2, 3, 4].map(() => collection.open()));
      for (const { db } of stores) expect(await db.selectFrom('scans').selectAll().execute()).toEqual([]);
    } finally {
      await collection.remove();
    }
  });
});

it.runIf(postgresUrl)('a collection outlives that its server ends the connections', async () => {
  const collection = await newCollection('postgres');
  try {
    const { db } = await collection.open();
    await db.selectFrom('scans').selectAll().execute();
    await admin(
      'select pg_terminate_backend(pid) from pg_stat_activity where pid <> pg_backend_pid() and datname = $1',
      [new URL(collection.address).pathname.slice(1)],
    );
    await expect.poll(() => db.selectFrom('scans').selectAll().execute().catch(String)).toEqual([]);
  } finally {
    await collection.remove();
  }
});
