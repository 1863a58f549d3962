import { readdirSync, readFileSync } from 'node:fs';
import { extname, join } from 'node:path';

export interface StaticFile {
  readonly type: string;
  readonly bytes: Uint8Array;
}

/** What is served, by the path after the host: nothing else can be asked for. */
export type StaticTable = ReadonlyMap<string, StaticFile>;

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.md': 'text/plain; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.wasm': 'application/wasm',
};

/**
 * All files below `folder`, read once: some 15 MB. No request touches the disk, so none can leave the folder, and one
 * that comes while the app is built anew is answered still.
 */
export function staticTable(folder: string): StaticTable {
  const table = new Map<string, StaticFile>();
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue;
    const path = join(entry.parentPath, entry.name);
    const name = path.slice(folder.length).replaceAll('\\', '/');
    table.set(name, { type: types[extname(path)] ?? 'application/octet-stream', bytes: readFileSync(path) });
  }
  const start = table.get('/index.html');
  return start ? table.set('/', start) : table;
}

/** The page of the collection's rooms, which is there for those who serve one. */
export const collectionPage = (table: StaticTable): StaticFile | undefined => table.get('/collection/index.html');

/** The same table whose start page says that a collection is served beside it. */
export function withCollectionNamed(table: StaticTable): StaticTable {
  const start = table.get('/');
  if (!start) return table;
  const html = Buffer.from(start.bytes).toString('utf8');
  const named = html.replace('</head>', '<meta name="collection" content="collection/"></head>');
  const page = { ...start, bytes: Buffer.from(named) };
  return new Map([...table, ['/', page], ['/index.html', page]]);
}
