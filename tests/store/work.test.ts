import { mkdtempSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { comparePrepared } from '../../src/core/pipeline.ts';
import { addScans, failedScans } from '../../src/store/catalogue.ts';
import type { Store } from '../../src/store/database/open.ts';
import { countJobs, failedJobs } from '../../src/store/jobList.ts';
import { readManifest } from '../../src/store/manifest.ts';
import { keptFace } from '../../src/store/steps.ts';
import { linkOf } from '../../src/store/verifiedPair.ts';
import { work } from '../../src/store/work.ts';
import { dialects, newCollection } from './databases.ts';
import { fiveScans } from './fiveScans.ts';
import { standIn } from './standIn.ts';

let folder = '';
let csv = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ectype-scans-'));
  csv = readFileSync(fiveScans(folder), 'utf8');
  writeFileSync(join(folder, 'broken.ply'), 'ply\nformat ascii 1.0\n');
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const add = (store: Store, text = csv) => addScans(store, readManifest(text).rows, folder);
const links = ({ db }: Store) => db.selectFrom('links').selectAll().orderBy('a_id').orderBy('b_id').execute();

describe.each(dialects)('a collection on %s', (dialect) => {
  let collection: Awaited<ReturnType<typeof newCollection>>;
  let store: Store;
  beforeAll(async () => {
    collection = await newCollection(dialect);
    store = await collection.open();
  });
  afterAll(() => collection.remove());

  it('is prepared, searched and verified; a scan that cannot be used is an error of its own', async () => {
    const { added, errors } = await add(
      store,
      `${csv}broken.ply,Arch. 3,cast,,nowhere.ply,\nabsent.ply,Arch. 4,cast,,,\n`,
    );
    expect(added).toBe(7);
    expect(errors).toMatchObject([{ line: 7, words: expect.stringMatching(/cast_of names "nowhere\.ply"/) }]);
    await work(store, standIn);
    expect(await failedJobs(store.db)).toEqual([]);
    const failed = await failedScans(store.db);
    expect(failed.map(({ shelfmark }) => shelfmark)).toEqual(['Arch. 3', 'Arch. 4']);
    for (const { error } of failed) expect(error).toMatch(/^[^\n]+$/);
    expect((await store.db.selectFrom('faces').selectAll().execute()).length).toBe(5);
    const made = await links(store);
    expect(made.map(({ a_id, b_id }) => [a_id, b_id])).toEqual([
      [1, 2],
      [1, 3],
      [2, 3],
      [4, 5],
    ]);
    const referee = linkOf(comparePrepared(await keptFace(store, 2), await keptFace(store, 3)));
    // Weighed first, its surfaces read later: the same as in one go.
    expect(made[2]).toEqual({ a_id: 2, b_id: 3, by_tool: 'test', ...referee });
    expect(made.map(({ surfaces_read }) => surfaces_read)).toEqual([1, 1, 1, 1]);
    expect(referee.finding).toBe('supported');
    expect(await store.db.selectFrom('known').selectAll().execute()).toEqual([
      { a_id: 3, b_id: 2, relation: 'castOf' },
    ]);
  }, 240_000);

  it('added again has nothing to do; a changed file is prepared again and what rested on it is made anew', async () => {
    const before = await links(store);
    expect(await add(store)).toMatchObject({ added: 0, changed: 0, unchanged: 5 });
    const waiting = async () => (await countJobs(store.db)).filter(({ state }) => state === 'waiting');
    expect(await waiting()).toEqual([]);
    utimesSync(join(folder, 'matrix1.ply'), new Date(), new Date(Date.now() + 5000));
    expect(await add(store)).toMatchObject({ changed: 1, unchanged: 4 });
    expect(await waiting()).toEqual([{ kind: 'prepare', state: 'waiting', count: 1 }]);
    await work(store, standIn);
    expect(await links(store)).toEqual(before);
  }, 120_000);
});
