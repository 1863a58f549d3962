import { mkdirSync, readdirSync, renameSync, rmdirSync, rmSync } from 'node:fs';
import { mkdir, open } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { Content, Files } from './filesList.ts';
import { takeLock } from './lock.ts';
import { type Place, statOf } from './place.ts';

/** What one run puts at one place: a file, or a folder's files by names with forward strokes. */
export type Made = Content | Files;

/** Something made aside, complete and on the disk, that can be put in its place at one stroke. */
export interface Staged {
  /** Puts it there; a former folder lies aside until `clear`. */
  put(): void;
  clear(): void;
}

/**
 * Locks the place, clears away what killed runs left there, and writes `made` beside it under a name of its own. What
 * takes all this away again is added to `undo`, the last first to be called.
 */
export async function stage(place: Place, made: Made, undo: Array<() => void>): Promise<Staged> {
  const top = mkdirSync(place.parent, { recursive: true });
  if (top !== undefined) undo.push(() => removeEmpty(place.parent, top));
  undo.push(takeLock(place.lock, place.stated));
  recover(place);
  const aside = join(place.parent, `${place.prefix}-${process.pid}.new`);
  const former = join(place.parent, `${place.prefix}-${process.pid}.old`);
  undo.push(() => rmSync(aside, { recursive: true, force: true }));
  await (made instanceof Map ? writeFolder(aside, made) : writeWhole(aside, made as Content));
  return {
    put: () => exchange(place.path, aside, former, made instanceof Map),
    clear: () => rmSync(former, { recursive: true, force: true }),
  };
}

/** A folder cannot be renamed over one that holds something: the former one steps aside first. */
function exchange(path: string, aside: string, former: string, isFolder: boolean): void {
  const stepsAside = isFolder && statOf(path) !== null;
  if (stepsAside) renameSync(path, former);
  try {
    renameSync(aside, path);
  } catch (error) {
    if (stepsAside) renameSync(former, path);
    throw error;
  }
}

async function writeFolder(folder: string, files: Files): Promise<void> {
  const folders = new Set([folder]);
  for (const name of files.keys()) {
    for (let at = dirname(name); at !== '.'; at = dirname(at)) folders.add(join(folder, at));
  }
  for (const each of folders) await mkdir(each, { recursive: true });
  for (const [name, content] of files) await writeWhole(join(folder, name), content);
  for (const each of folders) await toDisk(each);
}

/** Bytes into a new file, and onto the disk. */
async function writeWhole(path: string, content: Content): Promise<void> {
  const file = await open(path, 'w');
  try {
    await file.writeFile(content);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** The names in a folder onto the disk; not every system can, and then it does so by itself. */
export async function toDisk(folder: string): Promise<void> {
  const unable = new Set(['EPERM', 'EISDIR', 'EINVAL', 'EACCES', 'ENOTSUP', 'EBADF']);
  try {
    const handle = await open(folder, 'r');
    await handle.sync().finally(() => handle.close());
  } catch (error) {
    if (!unable.has(String((error as NodeJS.ErrnoException).code))) throw error;
  }
}

/** What runs that were killed left beside the place: a former folder goes back where none is, all else goes. */
export function recover({ path, parent, prefix }: Place): void {
  if (statOf(parent) === null) return;
  const left = readdirSync(parent).filter((name) => name.startsWith(`${prefix}-`));
  for (const name of left.filter((each) => each.endsWith('.old')))
    if (statOf(path) === null) renameSync(join(parent, name), path);
    else rmSync(join(parent, name), { recursive: true, force: true });
  for (const name of left.filter((each) => !each.endsWith('.old')))
    rmSync(join(parent, name), { recursive: true, force: true });
}

/** Folders that were made on the way, from `folder` up to `top`, where nothing is in them. */
function removeEmpty(folder: string, top: string): void {
  try {
    for (let at = folder; at.startsWith(top); at = dirname(at)) rmdirSync(at);
  } catch {
    // Something else is in it by now.
  }
}
