import { basename } from 'node:path';
import type { Store } from '../../../store/database/open.ts';
import { lastDecision } from '../../../store/decide.ts';
import type { Grouped } from '../../../store/grouping.ts';
import { countJobs } from '../../../store/jobList.ts';
import { groupRecord } from '../../collection/groupRecord.ts';

/** All that the tray and the groups show. Where files lie on this computer is not told. */
export type CollectionTold = Awaited<ReturnType<typeof collectionTold>>;
export type ScanTold = CollectionTold['scans'][number];

export async function collectionTold(store: Store, grouped: Grouped) {
  const jobs = await countJobs(store.db);
  const left = jobs.filter(({ state }) => state === 'waiting' || state === 'taken');
  return {
    schema: 'ectype/collection/1',
    /** What a decision has to know of. */
    seen: await lastDecision(store.db),
    jobsLeft: left.reduce((sum, { count }) => sum + count, 0),
    scans: await scansTold(store),
    removed: await store.db
      .selectFrom('removals')
      .select(['shelfmark', 'by_whom as by', 'at', 'words'])
      .orderBy('id')
      .execute(),
    groups: groupsTold(grouped),
  };
}

export function groupsTold(grouped: Grouped) {
  const scans = new Map([...grouped.scans].map(([id, row]) => [id, { ...row, path: basename(row.path) }]));
  return groupRecord({ ...grouped, scans });
}

/** The catalogue, with where each picture is served. */
export async function scansTold({ db }: Store) {
  const rows = await db
    .selectFrom('scans')
    .leftJoin('faces', 'faces.scan_id', 'scans.id')
    .select(['scans.id as scan', 'path', 'shelfmark', 'kind', 'seal', 'side', 'material', 'unit', 'instrument'])
    .select(['document_date as documentDate', 'state', 'error', 'width_mm as widthMm', 'height_mm as heightMm'])
    .select(['sense', 'picture'])
    .orderBy('scans.id')
    .execute();
  return rows.map(({ picture, path, error, ...scan }) => ({
    ...scan,
    error: error?.replaceAll(path, basename(path)) ?? null,
    file: basename(path),
    picture: picture && `pictures/${picture}.png`,
  }));
}
