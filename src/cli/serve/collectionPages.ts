import { escapeXml } from '../../core/scan/index.ts';
import type { Store } from '../../store/database/open.ts';
import { getFile } from '../../store/files.ts';
import { groupedOf } from '../../store/grouping.ts';
import { type GroupRecord, groupRecord, type Member, type Named } from '../collection/groupRecord.ts';
import { groupNotes } from '../collection/groupWords.ts';
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

const pixelsPerMm = 3;

const listOf = (lines: readonly string[]): string =>
  lines.length === 0 ? '' : `<ul>${lines.map((line) => `<li>${escapeXml(line)}</li>`).join('')}</ul>`;

function page(record: GroupRecord, scans: readonly Scan[]): StaticFile {
  const byScan = new Map(scans.map((scan) => [scan.scan, scan]));
  const figure = (one: Named | Member): string => {
    const scan = byScan.get(one.scan);
    // All at one scale; a face of unknown width keeps its picture's own size.
    const width = scan?.widthMm ? ` style="width:${(pixelsPerMm * scan.widthMm).toFixed(0)}px"` : '';
    const picture = scan?.picture ? `<img src="${scan.picture}" alt=""${width} loading="lazy">` : '';
    const left =
      'imageLeft' in one && one.imageLeft !== null ? `, ${Math.round(100 * one.imageLeft)} % of the image` : '';
    const date = one.documentDate ? `, document ${escapeXml(one.documentDate)}` : '';
    return `<figure>${picture}<figcaption><b>${escapeXml(one.shelfmark)}</b><br>${escapeXml(one.kind)}${date}${left}</figcaption></figure>`;
  };
  const section = (group: GroupRecord['groups'][number]): string =>
    [
      `<h2 id="${group.id}">${escapeXml(group.name ?? group.id)}</h2>`,
      `<p>${group.strength ?? 'stated'}${group.weakest ? `; weakest tie: ${escapeXml(group.weakest.a.shelfmark)} and ${escapeXml(group.weakest.b.shelfmark)}, score ${group.weakest.score.toFixed(1)}` : ''}</p>`,
      `<div>${group.members.map(figure).join('')}</div>`,
      listOf(groupNotes(group)),
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
      ? ['<h2>Not used</h2>', listOf(failed.map(({ shelfmark, error }) => `${shelfmark}: ${error ?? ''}`))]
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
:root { color-scheme: light dark; --paper: #f4efe4; --ink: #241f19; --soft: #665b4b; --rule: #cabda2; --accent: #8a2d1b; }
@media (prefers-color-scheme: dark) { :root { --paper: #171512; --ink: #ece3d2; --soft: #a99d88; --rule: #443d32; --accent: #e58a6c; } }
body { font: 17px/1.45 Alegreya, 'Iowan Old Style', Palatino, P052, Georgia, serif; max-width: 72rem; margin: 2.5rem auto; padding: 0 1.5rem; color: var(--ink); background: var(--paper); }
h1, h2 { font-weight: 400; }
h2 { margin: 2.2rem 0 0.2rem; padding-top: 1.2rem; border-top: 1px solid var(--rule); }
p { margin: 0.3rem 0; max-width: 48rem; }
h2 + p, figcaption, ul { color: var(--soft); }
a { color: var(--accent); }
div { display: flex; flex-wrap: wrap; align-items: end; gap: 1.4rem 2rem; margin: 1rem 0; }
figure { margin: 0; max-width: 100%; }
figcaption { font-size: 15px; max-width: 12rem; }
figcaption b { font-weight: 400; color: var(--ink); }
img { max-width: 100%; }
ul { margin: 0.5rem 0; padding-left: 1.2rem; font-size: 15px; }
</style>
</head>
<body>
`;
