import { rmSync } from 'node:fs';
import type { Store } from './database/open.ts';
import type { Db } from './database/tables.ts';
import { type FileKind, fileAt } from './files.ts';
import { addRounds, lockScans } from './rounds.ts';

/** Who takes a scan out, when and why. */
export interface Removal {
  readonly by: string;
  /** ISO 8601. */
  readonly at: string;
  readonly words: string;
}

/**
 * Takes a scan out of a collection with all that rests on it: face, candidates, links, jobs. Its file is not touched. Who did so is
 * kept. What others had it verified for goes on to the next. False where there is no such scan. A job on it that is under way ends
 * without effect, since its row is gone.
 */
export async function removeScan(store: Store, id: number, { by, at, words }: Removal): Promise<boolean> {
  const files = await store.db.transaction().execute(async (trx) => {
    await lockScans(store, trx, [id]);
    const scan = await trx.selectFrom('scans').selectAll().where('id', '=', id).executeTakeFirst();
    if (!scan) return null;
    const face = await trx.selectFrom('faces').selectAll().where('scan_id', '=', id).executeTakeFirst();
    const askers = await trx.selectFrom('candidates').select('scan_id').where('other_id', '=', id).execute();
    await trx.deleteFrom('jobs').where('b_id', '=', id).execute();
    await trx.deleteFrom('scans').where('id', '=', id).execute();
    await trx
      .insertInto('removals')
      .values({ path: scan.path, shelfmark: scan.shelfmark, by_whom: by, at, words })
      .execute();
    for (const { scan_id } of askers) await addRounds(trx, scan_id);
    return face ? unnamed(trx, face) : [];
  });
  for (const [kind, hash] of files ?? []) rmSync(fileAt(store.folder, kind, hash), { force: true });
  return files !== null;
}

const kinds = ['relief', 'picture', 'local'] as const satisfies readonly FileKind[];

/** Files of a face that no other face names. While one is being prepared, whose files are not named yet, all stay. */
async function unnamed(
  trx: Db,
  face: Readonly<Record<(typeof kinds)[number], string>>,
): Promise<Array<readonly [FileKind, string]>> {
  const taken = await trx
    .selectFrom('jobs')
    .select('id')
    .where('kind', '=', 'prepare')
    .where('state', '=', 'taken')
    .executeTakeFirst();
  if (taken) return [];
  const out: Array<readonly [FileKind, string]> = [];
  for (const kind of kinds) {
    const other = await trx.selectFrom('faces').select('scan_id').where(kind, '=', face[kind]).executeTakeFirst();
    if (!other) out.push([kind, face[kind]]);
  }
  return out;
}
