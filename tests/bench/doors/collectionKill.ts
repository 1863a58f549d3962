import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { seededRandom } from '../../../src/core/geometry/index.ts';
import { addressOf, openStore } from '../../../src/store/database/open.ts';
import { ectype } from '../../cli/run.ts';
import { fiveScans } from '../../store/fiveScans.ts';
import { killedAfter } from '../../store/killedAdd.ts';
import { snapshotOf } from '../../store/snapshot.ts';

/**
 * Ends `ectype add` by SIGKILL `count` times at random moments of the first three fifths of its time, beginning a new collection whenever one is done, and compares each
 * with that of an uninterrupted run. Every number must agree.
 */
export async function collectionKill(count: number, seed = 2611): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'ectype-collection-kill-'));
  const random = seededRandom(seed);
  try {
    const manifest = fiveScans(folder, 1200, 3);
    const add = (name: string): string[] => ['add', manifest, '--to', join(folder, name)];
    const begin = performance.now();
    if (ectype(...add('whole')).status !== 0) throw new Error('the uninterrupted run failed');
    const wholeMs = performance.now() - begin;
    const whole = await snapshot(join(folder, 'whole'));
    let [kills, collections, same] = [0, 0, 0];
    while (kills < count) {
      const name = `killed-${collections}`;
      let done = false;
      while (!done && kills < count) {
        done = await killedAfter(random.between(0, 0.6 * wholeMs), ...add(name));
        if (!done) kills++;
      }
      if (ectype(...add(name)).status !== 0) throw new Error('the last run failed');
      collections++;
      if (isDeepStrictEqual(await snapshot(join(folder, name)), whole)) same++;
      process.stdout.write(`${kills} kills, ${collections} collections, ${same} of them like the uninterrupted one\n`);
    }
    if (same < collections) process.exitCode = 1;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function snapshot(folder: string): Promise<object> {
  const store = await openStore(addressOf(folder) as NonNullable<ReturnType<typeof addressOf>>);
  return snapshotOf(store).finally(() => store.close());
}
