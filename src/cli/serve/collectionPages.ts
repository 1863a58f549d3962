import { escapeXml } from '../../core/scan/index.ts';
import type { Store } from '../../store/database/open.ts';
import { getFile } from '../../store/files.ts';
import { groupedOf } from '../../store/grouping.ts';
import { type GroupRecord, groupRecord, type Member, type Named } from '../collection/groupRecord.ts';
import type { Beside } from './appServer.ts';
import type { StaticFile } from './staticTable.ts';

/** A page of the groups, the same and all scans as JSON, and the small pictures: nothing of the scans themselves. */
export const collectionPages =
  (store: Store): Beside =>
  async (path) => {
    const picture = /^\/collection\/pictures\/([0-9a-f]{64})\.png$/.exec(path)?.[1];
    if (picture) return pictureOf(store, picture);
    if (path === '/collection/scans.json') return json({ schema: 'ectype/scans/1', scans: await scansOf(store) });
    if (path === '/collection/groups.json') return json(groupRecord(await groupedOf(store.db)));
    if (path === '/collection/') return page(groupRecord(await groupedOf(store.db)), await scansOf(store));
    return null;
  };

const json = (value: object): StaticFile => ({
  type: 'application/json; charset=utf-8',
  bytes: Buffer.from(`${JSON.stringify(value, null, 2)}\n`),
});

async function pictureOf(store: Store, hash: string): Promise<StaticFile | null> {
  const known = await store.db.selectFrom('faces').select('picture').where('picture', '=', hash).executeTakeFirst();
  return known ? { type: 'image/png', bytes: getFile(store.folder, 'picture', hash) } : null;
}

type Scan = Awaited<ReturnType<typeof scansOf>>[number];

/** The catalogue, with where each picture is served. */
async function scansOf({ db }: Store) {
  const rows = await db
    .selectFrom('scans')
    .leftJoin('faces', 'faces.scan_id', 'scans.id')
    .select(['scans.id as scan', 'shelfmark', 'kind', 'seal', 'side', 'material', 'document_date as documentDate'])
    .select(['state', 'error', 'width_mm as widthMm', 'height_mm as heightMm', 'picture'])
    .orderBy('scans.id')
    .execute();
  return rows.map(({ picture, ...scan }) => ({ ...scan, picture: picture && `pictures/${picture}.png` }));
}

function page(record: GroupRecord, scans: readonly Scan[]): StaticFile {
  const byScan = new Map(scans.map((scan) => [scan.scan, scan]));
  const figure = (one: Named | Member): string => {
    const scan = byScan.get(one.scan);
    const picture = scan?.picture ? `<img src="${scan.picture}" alt="" loading="lazy">` : '';
    const left =
      'imageLeft' in one && one.imageLeft !== null ? `, ${Math.round(100 * one.imageLeft)} % of the image` : '';
    const date = one.documentDate ? `, document ${escapeXml(one.documentDate)}` : '';
    return `<figure>${picture}<figcaption>${escapeXml(one.shelfmark)}<br>${escapeXml(one.kind)}${date}${left}</figcaption></figure>`;
  };
  const section = (group: GroupRecord['groups'][number]): string =>
    [
      `<h2 id="${group.id}">${escapeXml(group.name ?? group.id)}</h2>`,
      `<p>${group.strength ?? 'stated'}${group.weakest ? `; weakest tie: ${escapeXml(group.weakest.a.shelfmark)} and ${escapeXml(group.weakest.b.shelfmark)}, score ${group.weakest.score.toFixed(1)}` : ''}</p>`,
      `<div>${group.members.map(figure).join('')}</div>`,
      ...(group.possibleMembers.length > 0
        ? [`<p>Possible members, fragments:</p><div>${group.possibleMembers.map(figure).join('')}</div>`]
        : []),
    ].join('\n');
  const failed = scans.filter(({ state }) => state === 'failed');
  const body = [
    '<h1>Collection</h1>',
    `<p>${escapeXml(record.caution)}</p>`,
    `<p>Groups: ${record.groups.length}; objects in none: ${record.single.length}; pairs verified: ${record.compared}; false merges to be expected in the whole collection: at most ${record.expectedFalseMerges.toPrecision(2)}. <a href="groups.json">groups.json</a>, <a href="scans.json">scans.json</a></p>`,
    ...record.groups.map(section),
    `<h2>In no group</h2><div>${record.single.map(figure).join('')}</div>`,
    ...(failed.length > 0
      ? [
          `<h2>Not used</h2><ul>${failed.map(({ shelfmark, error }) => `<li>${escapeXml(shelfmark)}: ${escapeXml(error ?? '')}</li>`).join('')}</ul>`,
        ]
      : []),
  ];
  return { type: 'text/html; charset=utf-8', bytes: Buffer.from(`${frame}${body.join('\n')}\n</body>\n</html>\n`) };
}

const frame = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src 'self'; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width">
<title>Collection</title>
<style>
body { font: 16px/1.5 serif; max-width: 70rem; margin: 2rem auto; padding: 0 1rem; }
div { display: flex; flex-wrap: wrap; gap: 1rem; }
figure { margin: 0; width: 11rem; }
img { max-width: 100%; }
</style>
</head>
<body>
`;
