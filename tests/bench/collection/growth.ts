import { createHash } from 'node:crypto';
import { appendFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { tools } from '../../../src/cli/collection/tools.ts';
import type { PreparedScan } from '../../../src/core/pipeline.ts';
import { openStore, type Store } from '../../../src/store/database/open.ts';
import { putFiles } from '../../../src/store/files.ts';
import { groupedOf } from '../../../src/store/grouping.ts';
import { addJobs } from '../../../src/store/jobs.ts';
import { imageArea, packFace } from '../../../src/store/keptFace.ts';
import { type Standing, work } from '../../../src/store/work.ts';
import { type CollectedObject, makeCollection, plainPlan } from '../../populations/collection.ts';
import { type Row, share, tableOf } from '../table.ts';
import { cpuSeconds } from './indexed.ts';

/**
 * Collections of 125 objects from seed `from`, so many of them in one store as give each of `sizes`, searched, verified and grouped by one worker: CPU seconds by kind
 * of work, and the groups of verified pairs against the truth once all findings stand. Surfaces, which add descent and state, are read of the first `surfaces` sizes.
 * Faces are about `across` cells across.
 */
export async function collectionGrowth(
  sizes: readonly number[],
  from: number,
  surfaces: number,
  across = plainPlan.across,
): Promise<void> {
  for (const [k, size] of sizes.entries()) {
    const folder = mkdtempSync(join(tmpdir(), 'ectype-collection-growth-'));
    const store = await openStore({ dialect: 'sqlite', folder });
    try {
      const rows = await grown(store, size, from, k < surfaces, across);
      const text = `## ${new Date().toISOString().slice(0, 16).replace('T', ' ')}, a collection of ${size} objects from seed ${from}, ${across} cells across\n\n${tableOf(rows)}\n`;
      process.stdout.write(`${text}\n`);
      appendFileSync('tests/bench/results.md', `\n${text}`);
    } finally {
      await store.close();
      rmSync(folder, { recursive: true, force: true });
    }
  }
}

class FindingsStand extends Error {}

async function grown(store: Store, size: number, from: number, surfaces: boolean, across: number): Promise<Row[]> {
  const begin = cpuSeconds();
  const truth = new Map<string, CollectedObject>();
  for (let seed = from; truth.size < size; seed++)
    for (const object of makeCollection(seed, { ...plainPlan, across })) {
      if (truth.size === size) break;
      const { made: _, face: __, ...known } = object;
      truth.set(String(await keep(store, object, truth)), known as CollectedObject);
    }
  const spent = { 'making and indexing': cpuSeconds() - begin, search: 0, findings: 0, surfaces: 0 };
  const times = { search: 0, findings: 0, surfaces: 0 };
  const weighed = new Set<string>();
  let [doing, since] = [null as 'search' | 'findings' | 'surfaces' | null, cpuSeconds()];
  let rows: Row[] | null = null;
  const tell = async ({ doing: job, ended, all }: Standing): Promise<void> => {
    const now = cpuSeconds();
    if (doing) spent[doing] += now - since;
    const pair = `${job?.a} ${job?.b}`;
    doing = job === null ? null : job.kind === 'search' ? 'search' : weighed.has(pair) ? 'surfaces' : 'findings';
    if (doing === 'findings') weighed.add(pair);
    if (doing) times[doing]++;
    if (doing === 'surfaces' || !doing) {
      rows ??= await groupRows(store, truth, 'findings alone');
      if (!surfaces) throw new FindingsStand();
    }
    if (doing && times[doing] % 100 === 0) process.stderr.write(`${size}: ${doing}, ${ended} of ${all} jobs ended\n`);
    since = cpuSeconds();
  };
  await work(store, tools, tell).catch((error) => {
    if (!(error instanceof FindingsStand)) throw error;
  });
  const row = (what: string, measured: string): Row => ({ what, floor: '', measured });
  return [
    ...Object.entries(spent).map(([what, s]) =>
      row(`${what}, CPU`, `${s.toFixed(0)} s, ${(s / size).toFixed(2)} s an object`),
    ),
    row('searches; pairs compared; of which surfaces read', `${times.search}; ${times.findings}; ${times.surfaces}`),
    ...(rows ?? []),
    ...(surfaces ? await groupRows(store, truth, 'surfaces read') : []),
  ];
}

/** Puts a face into the store as `prepare` leaves it, with a search for it; every second cast is stated. */
async function keep(store: Store, object: CollectedObject, before: ReadonlyMap<string, CollectedObject>) {
  const { id: name, kind, castOf } = object;
  const sha256 = createHash('sha256').update(name).digest('hex');
  const scan = { name, sha256, format: 'ply', unit: 'mm', unitFrom: 'stated' };
  const stated = { kindFrom: 'stated', scaleUncertaintyPercent: 0.3, scaleUncertaintyFrom: 'assumed' };
  const face = object.face();
  const prepared = { scan, face, kind, ...stated } as unknown as PreparedScan;
  const { version, global, local } = tools.search.index(face);
  const [relief, picture, localFile] = await putFiles(store.folder, [
    ['relief', packFace(prepared)],
    ['picture', tools.picture(prepared)],
    ['local', local],
  ]);
  const { id } = await store.db
    .insertInto('scans')
    .values({ path: `/made/${name}`, stamp: '', shelfmark: name, kind, state: 'ready' })
    .returning('id')
    .executeTakeFirstOrThrow();
  const parent = [...before].find(([, one]) => one.id === castOf)?.[0];
  if (parent && before.size % 2)
    await store.db
      .insertInto('known')
      .values({ a_id: id, b_id: Number(parent), relation: 'castOf' })
      .execute();
  const size = { width_mm: face.outline.widthMm, height_mm: face.outline.heightMm, image_mm2: imageArea(face) };
  await store.db
    .insertInto('faces')
    .values({
      ...{ scan_id: id, source: sha256, relief, picture, local: localFile },
      ...{ global: new Uint8Array(global), index_version: version, sense: face.sense, ...size, prepared_at: id },
    })
    .execute();
  await addJobs(store.db, [{ kind: 'search', a: id }]);
  return id;
}

async function groupRows(store: Store, truth: ReadonlyMap<string, CollectedObject>, title: string): Promise<Row[]> {
  const begin = cpuSeconds();
  const { grouping, links } = await groupedOf(store.db);
  const seconds = cpuSeconds() - begin;
  const of = (id: string): CollectedObject => truth.get(id) as CollectedObject;
  const groupOf = new Map(grouping.groups.flatMap(({ id, members }) => members.map((member) => [member, id] as const)));
  const [right, all, merged] = [[] as string[], [] as string[], [] as string[]];
  for (const { members } of grouping.groups) {
    const matrices = [...new Set(members.map((id) => of(id).matrix))];
    if (matrices.length > 1) merged.push(matrices.join(' with '));
    members.forEach((a, i) => {
      for (const b of members.slice(i + 1)) {
        all.push(a);
        if (of(a).matrix === of(b).matrix) right.push(a);
      }
    });
  }
  const whole = [...truth].filter(([, { imageLeft, decoy }]) => imageLeft >= 0.6 && !decoy).map(([id]) => id);
  let [same, found] = [0, 0];
  whole.forEach((a, i) => {
    for (const b of whole.slice(i + 1)) {
      if (of(a).matrix !== of(b).matrix) continue;
      same++;
      if (groupOf.has(a) && groupOf.get(a) === groupOf.get(b)) found++;
    }
  });
  const tied = links.filter(({ finding, a, b }) => finding === 'supported' && of(a).matrix !== of(b).matrix);
  const row = (what: string, floor: string, measured: string): Row => ({ what: `${title}: ${what}`, floor, measured });
  return [
    row('pairs in groups that are of one matrix', 'at least 99.9 %', share(right.length, all.length)),
    row('pairs of one matrix, both with 60 % and more, in one group', 'at least 95 %', share(found, same)),
    row(
      'false merges',
      `at most the printed ${grouping.expectedFalseMerges.toFixed(3)}`,
      `${merged.length} ${merged.join(', ')}`,
    ),
    row(
      'supported pairs of different matrices',
      '',
      `${tied.length} (${tied.map(({ score }) => score?.toFixed(1)).join(', ')})`,
    ),
    row('reading and grouping', '', `${seconds.toFixed(1)} s of CPU`),
  ];
}
