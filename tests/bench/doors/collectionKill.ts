import { copyFileSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { seededRandom } from '../../../src/core/geometry/index.ts';
import { addressOf, openStore, type Store } from '../../../src/store/database/open.ts';
import { ectypeAlone } from '../../cli/run.ts';
import { newCollection } from '../../store/databases.ts';
import { fiveScans } from '../../store/fiveScans.ts';
import { killedAfter } from '../../store/killedAdd.ts';
import { snapshotOf } from '../../store/snapshot.ts';

/**
 * Ends `ectype add` on three scans by SIGKILL `count` times, each at a moment drawn evenly over the time of the whole run, and goes on with it; a new collection
 * is begun whenever one is done, and each is compared with that of an uninterrupted run. Every number must agree. On PostgreSQL where `dialect` says so (ECTYPE_POSTGRES).
 */
export async function collectionKill(count: number, dialect: 'sqlite' | 'postgres', seed: number): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'ectype-collection-kill-'));
  const random = seededRandom(seed);
  const fell = new Map<string, number>();
  let [kills, collections, same, wholeMs] = [0, 0, 0, 0];
  try {
    const manifest = fiveScans(folder, 1200, 3);
    const whole = await inOne(dialect, async (collection) => {
      const begin = performance.now();
      ended(ectypeAlone('add', manifest, '--to', collection.address).status);
      wholeMs = performance.now() - begin;
      return snapshotOf(await collection.open());
    });
    while (kills < count) {
      const result = await inOne(dialect, async (collection) => {
        while (kills < count) {
          if (await killedAfter(random.between(0, wholeMs), 'add', manifest, '--to', collection.address)) break;
          kills++;
          const doing = await underWay(dialect, collection, folder);
          fell.set(doing, (fell.get(doing) ?? 0) + 1);
        }
        ended(ectypeAlone('add', manifest, '--to', collection.address).status);
        return snapshotOf(await collection.open());
      });
      collections++;
      if (isDeepStrictEqual(result, whole)) same++;
      const at = [...fell].map(([what, times]) => `${times} ${what}`).join(', ');
      process.stdout.write(
        `${kills} kills (${at}), ${collections} collections, ${same} of them like the uninterrupted one\n`,
      );
    }
    if (same < collections) process.exitCode = 1;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

type Collection = Awaited<ReturnType<typeof newCollection>>;

async function inOne<T>(dialect: 'sqlite' | 'postgres', act: (collection: Collection) => Promise<T>): Promise<T> {
  const collection = await newCollection(dialect);
  return act(collection).finally(() => collection.remove());
}

function ended(status: number | null): void {
  if (status !== 0) throw new Error(`a run that nobody interrupted ended with ${status}`);
}

/** What the killed process had in hand. Of SQLite a copy is looked at: the next `add` has to find the files as the kill left them. */
async function underWay(
  dialect: 'sqlite' | 'postgres',
  { address, folder }: Collection,
  aside: string,
): Promise<string> {
  const look = async (store: Store): Promise<string> => {
    const job = store.db.selectFrom('jobs').select('kind').where('state', '=', 'taken').executeTakeFirst();
    const kind = (await job.finally(() => store.close()))?.kind;
    return kind ? `in a job to ${kind}` : 'between jobs';
  };
  if (dialect === 'postgres') return look(await openStore(parsed(address)));
  const copy = mkdtempSync(join(aside, 'copy-'));
  const files = readdirSync(folder).filter((name) => name.startsWith('collection.sqlite'));
  for (const name of files) copyFileSync(join(folder, name), join(copy, name));
  return files.length > 0 ? look(await openStore(parsed(copy))) : 'before there was a collection';
}

const parsed = (address: string): NonNullable<ReturnType<typeof addressOf>> =>
  addressOf(address) as NonNullable<ReturnType<typeof addressOf>>;
