import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addScans } from '../../src/store/catalogue.ts';
import type { Store } from '../../src/store/database/open.ts';
import { readManifest } from '../../src/store/manifest.ts';
import { dialects, newCollection } from './databases.ts';

describe.each(dialects)('the catalogue on %s', (dialect) => {
  let collection: Awaited<ReturnType<typeof newCollection>>;
  let store: Store;
  beforeAll(async () => {
    collection = await newCollection(dialect);
    store = await collection.open();
  });
  afterAll(() => collection.remove());
  const add = (...lines: string[]) =>
    addScans(
      store,
      readManifest(['file,shelfmark,kind,cast_of,sides_of,scan_of,unit', ...lines].join('\n')).rows,
      '/nowhere',
    );
  const known = async () => {
    const rows = await store.db.selectFrom('known').selectAll().orderBy('a_id').orderBy('b_id').execute();
    return rows.map(({ a_id, b_id, relation }) => `${a_id} ${relation} ${b_id}`);
  };

  it('relates scans by file and by shelfmark, to those that come later too', async () => {
    const { errors } = await add(
      'a.ply,A 1,impression,,,,',
      'b.ply,A 2,cast,a.ply,,,',
      'c.ply,A 3,impression,,A 4,A 1,',
    );
    expect(await known()).toEqual(['2 castOf 1', '3 scansOf 1']);
    expect(errors).toMatchObject([{ line: 4, file: 'c.ply', words: expect.stringMatching(/sides_of names "A 4"/) }]);
    expect((await add('d.ply,A 4,impression,,,,')).errors).toEqual([]);
    expect(await known()).toEqual(['2 castOf 1', '3 scansOf 1', '3 sidesOf 4']);
  });

  it('has a scan prepared again where what decides its reading is stated otherwise, not where the rest is', async () => {
    await store.db.updateTable('jobs').set({ state: 'done' }).execute();
    await store.db.updateTable('scans').set({ state: 'ready' }).execute();
    const { added, changed, unchanged } = await add(
      'a.ply,A 1 bis,impression,,,,',
      'b.ply,A 2,cast,a.ply,,,cm',
      'd.ply,A 4,cast,,,,',
    );
    expect({ added, changed, unchanged }).toEqual({ added: 0, changed: 2, unchanged: 1 });
    const waiting = await store.db
      .selectFrom('jobs')
      .select('a_id')
      .where('state', '=', 'waiting')
      .orderBy('a_id')
      .execute();
    expect(waiting.map(({ a_id }) => a_id)).toEqual([2, 4]);
    const scans = await store.db.selectFrom('scans').select(['shelfmark', 'state']).orderBy('id').execute();
    expect(scans.map(({ shelfmark, state }) => `${shelfmark} ${state}`)).toEqual([
      'A 1 bis ready',
      'A 2 waiting',
      'A 3 ready',
      'A 4 waiting',
    ]);
  });

  it('that cannot be brought to an end is left as it was', async () => {
    const before = await store.db.selectFrom('scans').selectAll().orderBy('id').execute();
    const { rows } = readManifest('file,shelfmark,kind\ne.ply,A 5,cast\nf.ply,A 6,cast\n');
    const broken = [rows[0], { ...rows[1], kind: 'seal' as unknown as (typeof rows)[1]['kind'] }];
    await expect(addScans(store, broken, '/nowhere')).rejects.toThrow(/check/i);
    expect(await store.db.selectFrom('scans').selectAll().orderBy('id').execute()).toEqual(before);
  });
});
