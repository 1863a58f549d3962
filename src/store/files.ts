import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { OutputError } from '../cli/output/errors.ts';
import { sha256 } from '../cli/output/filesList.ts';
import { placeOf } from '../cli/output/place.ts';
import { writeAll } from '../cli/output/writeAll.ts';

export type FileKind = 'relief' | 'picture' | 'local';

const endings: Readonly<Record<FileKind, string>> = { relief: 'relief', picture: 'png', local: 'index' };

/** Where a file of the collection lies: by the SHA-256 of what is in it. */
export const fileAt = (folder: string, kind: FileKind, hash: string): string =>
  join(folder, 'files', hash.slice(0, 2), `${hash}.${endings[kind]}`);

/**
 * Puts files into the collection and gives their hashes, in order. One that is there already stays: it holds the same bytes.
 * Each is whole and on the disk before it has its name. Throws OutputError.
 */
export async function putFiles(
  folder: string,
  files: ReadonlyArray<readonly [kind: FileKind, bytes: Uint8Array]>,
): Promise<string[]> {
  const hashes = files.map(([, bytes]) => sha256(bytes));
  const wanted = files.map(([kind, bytes], k) => ({ path: fileAt(folder, kind, hashes[k]), bytes }));
  // Beside a lock that a killed run left the file is written once more, which takes the lock away.
  const missing = wanted.filter(({ path }) => !existsSync(path) || existsSync(placeOf(path).lock));
  for (const { path } of missing) mkdirSync(dirname(path), { recursive: true });
  try {
    await writeAll(new Map(missing.map(({ path, bytes }) => [placeOf(path), bytes])));
  } catch (error) {
    // Another worker was writing the very same bytes.
    if (!(error instanceof OutputError) || missing.some(({ path }) => !existsSync(path))) throw error;
  }
  return hashes;
}

/** The bytes of a file of the collection; throws where it is gone or not what it was. */
export function getFile(folder: string, kind: FileKind, hash: string): Uint8Array {
  const path = fileAt(folder, kind, hash);
  const bytes = new Uint8Array(readFileSync(path));
  if (sha256(bytes) !== hash)
    throw new OutputError(`${path} is damaged: its bytes are not those it is named by; add the scan again.`);
  return bytes;
}
