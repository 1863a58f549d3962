import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const sha256 = (bytes: Uint8Array | string): string => createHash('sha256').update(bytes).digest('hex');

/**
 * Which run a folder holds: the SHA-256 of its record.json, or "absent". Throws where it is not one whole run: a file more
 * or less than its list says, other bytes, or a figure, table or page that names another record.
 */
export function runIn(folder: string): string {
  if (!existsSync(folder)) return 'absent';
  const list = JSON.parse(readFileSync(join(folder, 'files.json'), 'utf8')) as {
    recordSha256: string;
    files: Array<{ name: string; sha256: string }>;
  };
  const there = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1))
    .sort();
  const listed = [...list.files.map(({ name }) => name), 'files.json'].sort();
  if (there.join() !== listed.join()) throw new Error(`${folder} holds ${there.join()} and lists ${listed.join()}`);
  for (const { name, sha256: hash } of list.files) {
    const bytes = readFileSync(join(folder, name));
    if (sha256(bytes) !== hash) throw new Error(`${name} is not the file that is listed`);
    const record = sha256(
      readFileSync(join(folder, name.startsWith('subject-') ? name.split('/')[0] : '', 'record.json')),
    );
    if (!name.endsWith('.json') && !bytes.includes(record)) throw new Error(`${name} does not name its record`);
  }
  if (sha256(readFileSync(join(folder, 'record.json'))) !== list.recordSha256)
    throw new Error('another record is listed');
  return list.recordSha256;
}

/** What the writer left beside a folder. */
export const leftBeside = (parent: string): string[] =>
  readdirSync(parent).filter((name) => name.startsWith('.ectype-'));
