import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import * as z from 'zod';
import { UsageError } from '../errors.ts';
import { build, version } from '../version.ts';

export type Content = Uint8Array | string;

/** A run's files by their names in its folder, with forward strokes. */
export type Files = ReadonlyMap<string, Content>;

/** The list of a run's files, itself not listed. */
export const filesListName = 'files.json';

const listSchema = z.looseObject({
  schema: z.literal('ectype/files/1'),
  files: z.array(z.looseObject({ name: z.string(), sha256: z.string() })),
});

/** What file managers leave in every folder that was looked at; it goes with the folder. */
const leftByFileManagers = new Set(['.DS_Store', 'Thumbs.db', 'desktop.ini']);

export const sha256 = (content: Content): string => createHash('sha256').update(content).digest('hex');

/** The list of `files`. */
export function filesList(files: Files): string {
  const list = {
    schema: 'ectype/files/1',
    version,
    build,
    recordSha256: sha256(files.get('record.json') ?? ''),
    files: [...files].map(([name, content]) => ({ name, bytes: Buffer.byteLength(content), sha256: sha256(content) })),
  };
  return `${JSON.stringify(list, null, 2)}\n`;
}

/**
 * A folder may be replaced where it is empty or holds a former run as that wrote it, and nothing else. Throws
 * UsageError, naming one file, where it holds what no run made or what somebody changed since.
 */
export function refuseForeign(folder: string, stated: string): void {
  const there = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => !entry.isDirectory() && !leftByFileManagers.has(entry.name))
    .map((entry) =>
      join(entry.parentPath, entry.name)
        .slice(folder.length + 1)
        .replaceAll('\\', '/'),
    );
  const listed = listedIn(folder);
  for (const name of there) {
    if (name === filesListName && listed.size > 0) continue;
    const hash = listed.get(name);
    const why = hash === undefined ? 'which no run of ectype listed there' : 'which was changed since it was written';
    if (hash === undefined || hash !== sha256(readFileSync(join(folder, name))))
      throw new UsageError(`--out ${stated}: the folder holds ${name}, ${why}; give a new or an empty folder.`);
  }
}

function listedIn(folder: string): Map<string, string> {
  try {
    const list = listSchema.parse(JSON.parse(readFileSync(join(folder, filesListName), 'utf8')));
    return new Map(list.files.map(({ name, sha256: hash }) => [name, hash]));
  } catch {
    return new Map();
  }
}
