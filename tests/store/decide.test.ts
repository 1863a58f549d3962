import { afterEach, describe, expect, it } from 'vitest';
import type { Decision } from '../../src/core/collection/index.ts';
import type { Store } from '../../src/store/database/open.ts';
import { decide, lastDecision } from '../../src/store/decide.ts';
import { dialects, newCollection } from './databases.ts';
import { filled } from './filled.ts';

let made: Awaited<ReturnType<typeof newCollection>> | null = null;
afterEach(async () => {
  await made?.remove();
  made = null;
});
const opened = async (dialect: 'sqlite' | 'postgres', count: number): Promise<[Store, string[]]> => {
  made = await newCollection(dialect);
  const store = await made.open();
  return [store, (await filled(store, count)).map(String)];
};
const decision = (by: string, members: readonly string[], kind: Decision['kind'] = 'join'): Decision => ({
  ...{ kind, members, by, words: '' },
  at: '2026-11-28T12:00:00.000Z',
});

describe.each(dialects)('a decision by hand, on %s', (dialect) => {
  it('is kept where it knows of all that was decided on its objects, else told what it did not know of', async () => {
    const [store, [a, b, c, d]] = await opened(dialect, 4);
    const seen = { last: await lastDecision(store.db), concerned: [] };
    expect(await decide(store, decision('Anna', [a, b]), seen)).toEqual({ kept: true });
    // Of other objects it need not know.
    expect(await decide(store, decision('Bela', [c, d]), seen)).toEqual({ kept: true });
    const refused = await decide(store, decision('Cleo', [b, c], 'split'), seen);
    expect(refused).toMatchObject({ kept: false, gone: [] });
    expect(refused.kept ? [] : refused.newer.map(({ by }) => by)).toEqual(['Anna', 'Bela']);
    const now = { last: await lastDecision(store.db), concerned: [] };
    expect(await decide(store, decision('Cleo', [b, c], 'split'), now)).toEqual({ kept: true });
  });

  it('knows of what was decided on whoever stands in a group with its objects', async () => {
    const [store, [a, b, c]] = await opened(dialect, 3);
    await decide(store, decision('Anna', [b, c], 'split'));
    const seen = { last: 0, concerned: [a, b] };
    expect(await decide(store, decision('Bela', [a], 'name'), seen)).toMatchObject({ kept: false });
  });

  it('of an object that is gone is not kept', async () => {
    const [store, [a, b]] = await opened(dialect, 2);
    await store.db.deleteFrom('scans').where('id', '=', Number(b)).execute();
    const outcome = await decide(store, decision('Anna', [a, b]), { last: 0, concerned: [] });
    expect(outcome).toEqual({ kept: false, newer: [], gone: [b] });
    expect(await lastDecision(store.db)).toBe(0);
  });

  it('of many at once on one object one is kept, the others are told of it', async () => {
    const [store, [a, b]] = await opened(dialect, 2);
    const others = await Promise.all([1, 2, 3].map(() => (made as NonNullable<typeof made>).open()));
    const outcomes = await Promise.all(
      [store, ...others].map((each, k) => decide(each, decision(`person ${k}`, [a, b]), { last: 0, concerned: [] })),
    );
    expect(outcomes.filter(({ kept }) => kept)).toHaveLength(1);
    const rows = await store.db.selectFrom('decisions').selectAll().execute();
    expect(rows).toHaveLength(1);
    for (const outcome of outcomes)
      if (!outcome.kept) expect(outcome.newer.map(({ by }) => by)).toEqual([rows[0].by_whom]);
  });
});
