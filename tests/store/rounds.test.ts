import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Store } from '../../src/store/database/open.ts';
import { addRounds } from '../../src/store/rounds.ts';
import { dialects, newCollection } from './databases.ts';

const scans = 14;
const pairOf = (a: number, b: number): string => `${Math.min(a, b)} ${Math.max(a, b)}`;

describe.each(dialects)('rounds of verification on %s', (dialect) => {
  let collection: Awaited<ReturnType<typeof newCollection>>;
  let store: Store;
  beforeAll(async () => {
    collection = await newCollection(dialect);
    store = await collection.open();
    for (let k = 1; k <= scans; k++)
      await store.db
        .insertInto('scans')
        .values({ path: `s${k}`, stamp: '', shelfmark: `s${k}`, kind: 'cast', state: 'waiting' })
        .execute();
  });
  afterAll(() => collection.remove());

  /** Candidates in a fixed order; jobs done in the order that `next` picks; which pairs were verified in the end. */
  async function verifiedPairs(
    fellows: (a: number, b: number) => boolean,
    next: (waiting: number) => number,
  ): Promise<string[]> {
    const { db } = store;
    for (const table of ['links', 'candidates', 'jobs'] as const) await db.deleteFrom(table).execute();
    for (let id = 1; id <= scans; id++) {
      const others = Array.from({ length: scans }, (_, k) => k + 1).filter((other) => other !== id);
      others.sort((a, b) => Number(fellows(id, b)) - Number(fellows(id, a)) || a - b);
      await db
        .insertInto('candidates')
        .values(
          others.map((other_id, place) => ({
            scan_id: id,
            other_id,
            place,
            score: -place,
            likely: place < 12 ? 1 : 0,
            why: '{}',
          })),
        )
        .execute();
      await addRounds(db, id);
    }
    for (;;) {
      const waiting = await db.selectFrom('jobs').selectAll().where('state', '=', 'waiting').orderBy('id').execute();
      if (waiting.length === 0) break;
      const { id, a_id, b_id } = waiting[next(waiting.length)];
      await db.updateTable('jobs').set({ state: 'done' }).where('id', '=', id).execute();
      const finding = fellows(a_id, b_id) ? 'supported' : 'undecided';
      await db
        .insertInto('links')
        .values({ a_id, b_id, finding, strength: 'none', state: 'cannotJudge', by_tool: '' })
        .execute();
      await addRounds(db, a_id);
      await addRounds(db, b_id);
    }
    const done = await db.selectFrom('links').select(['a_id', 'b_id']).execute();
    return done.map(({ a_id, b_id }) => pairOf(a_id, b_id)).sort();
  }

  it('verify all pairs of a group, one round of an object that has none, and the same pairs in whatever order they are done', async () => {
    const group = (id: number): number => (id <= 8 ? 1 : 10 + id);
    const fellows = (a: number, b: number): boolean => group(a) === group(b);
    const inOrder = await verifiedPairs(fellows, () => 0);
    for (let a = 1; a <= 8; a++) for (let b = a + 1; b <= 8; b++) expect(inOrder).toContain(pairOf(a, b));
    // 9 to 14 are alone: each asks for its first five, which are 1 to 5, and nothing more.
    expect(inOrder.filter((pair) => pair.endsWith(' 14'))).toEqual(['1 14', '2 14', '3 14', '4 14', '5 14']);
    await fc.assert(
      fc.asyncProperty(fc.infiniteStream(fc.nat()), async (stream) => {
        const pick = (waiting: number): number => (stream.next().value as number) % waiting;
        expect(await verifiedPairs(fellows, pick)).toEqual(inOrder);
      }),
      { numRuns: dialect === 'sqlite' ? 6 : 2 },
    );
  }, 120_000);
});
