import type { Store } from '../../src/store/database/open.ts';
import { putFiles } from '../../src/store/files.ts';

/** Puts `count` scans into a collection as if they were prepared, with files of a few bytes; their numbers. */
export async function filled(store: Store, count: number): Promise<number[]> {
  const ids: number[] = [];
  for (let k = 0; k < count; k++) {
    const { id } = await store.db
      .insertInto('scans')
      .values({ path: `/seals/${k}.ply`, stamp: '', shelfmark: `S ${k}`, kind: 'impression', state: 'ready' })
      .returning('id')
      .executeTakeFirstOrThrow();
    const bytes = (text: string) => new TextEncoder().encode(text);
    const [relief, picture, local] = await putFiles(store.folder, [
      ['relief', bytes(`relief ${k}`)],
      // One picture is that of all.
      ['picture', bytes('picture')],
      ['local', bytes(`local ${k}`)],
    ]);
    const face = { source: relief, relief, picture, local, global: new Uint8Array(8), index_version: 1 };
    const size = { width_mm: 30, height_mm: 30, image_mm2: 700, prepared_at: k };
    await store.db
      .insertInto('faces')
      .values({ scan_id: id, ...face, sense: 'relief', ...size })
      .execute();
    ids.push(id);
  }
  return ids;
}

/** A supported pair of this score. */
export async function supported({ db }: Store, a: number, b: number, score: number): Promise<void> {
  const seen = { finding: 'supported', question: 'oneMatrix', strength: 'strong', score, descent: 'independent' };
  await db
    .insertInto('links')
    .values({
      a_id: Math.min(a, b),
      b_id: Math.max(a, b),
      ...{ ...seen, state: 'sameState', image_left_a: 1, image_left_b: 1, by_tool: 'test' },
    })
    .execute();
}
