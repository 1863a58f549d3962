import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { Store } from '../../src/store/database/open.ts';
import { fileAt } from '../../src/store/files.ts';

/**
 * All that a collection says, but for when it was said: two runs over the same scans must agree in every number. Throws where a
 * file it names is gone or damaged, or one lies there that nothing names.
 */
export async function snapshotOf({ db, folder }: Store): Promise<object> {
  const faces = await db.selectFrom('faces').selectAll().orderBy('scan_id').execute();
  const named = new Set<string>();
  for (const face of faces)
    for (const kind of ['relief', 'picture', 'local'] as const) {
      const path = fileAt(folder, kind, face[kind]);
      if (createHash('sha256').update(readFileSync(path)).digest('hex') !== face[kind])
        throw new Error(`${path} is damaged`);
      named.add(basename(path));
    }
  const there = readdirSync(join(folder, 'files'), { recursive: true, withFileTypes: true }).filter((entry) =>
    entry.isFile(),
  );
  const spare = there.filter(({ name }) => !named.has(name)).map(({ name }) => name);
  if (spare.length > 0) throw new Error(`nothing names ${spare.join()}`);
  return {
    scans: await db.selectFrom('scans').selectAll().orderBy('id').execute(),
    faces: faces.map(({ prepared_at, global, ...face }) => ({
      ...face,
      global: Buffer.from(new Uint8Array(global)).toString('hex'),
    })),
    candidates: await db.selectFrom('candidates').selectAll().orderBy('scan_id').orderBy('place').execute(),
    links: await db.selectFrom('links').selectAll().orderBy('a_id').orderBy('b_id').execute(),
    known: await db.selectFrom('known').selectAll().orderBy('a_id').execute(),
    jobs: await db
      .selectFrom('jobs')
      .select(['kind', 'a_id', 'b_id', 'state'])
      .orderBy('kind')
      .orderBy('a_id')
      .orderBy('b_id')
      .execute(),
  };
}
