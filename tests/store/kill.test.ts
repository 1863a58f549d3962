import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/geometry/index.ts';
import { addressOf, openStore } from '../../src/store/database/open.ts';
import { ectype } from '../cli/run.ts';
import { fiveScans } from './fiveScans.ts';
import { killedAfter } from './killedAdd.ts';
import { snapshotOf } from './snapshot.ts';

const seed = 1611;
const folder = mkdtempSync(join(tmpdir(), 'ectype-add-kill-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const snapshot = async (name: string): Promise<object> => {
  const store = await openStore(addressOf(join(folder, name)) as NonNullable<ReturnType<typeof addressOf>>);
  return snapshotOf(store).finally(() => store.close());
};

describe(`ectype add, seed ${seed}`, () => {
  it('killed at twenty random moments and gone on with says what an uninterrupted run says', async () => {
    const manifest = fiveScans(folder, 1500, 3);
    expect(ectype('add', manifest, '--to', join(folder, 'whole')).status).toBe(0);
    const random = seededRandom(seed);
    for (let k = 0; k < 20; k++)
      await killedAfter(random.between(80, 1500), 'add', manifest, '--to', join(folder, 'killed'));
    const { status, stderr } = ectype('add', manifest, '--to', join(folder, 'killed'));
    expect(status, stderr).toBe(0);
    expect(await snapshot('killed')).toEqual(await snapshot('whole'));
  }, 180_000);
});
