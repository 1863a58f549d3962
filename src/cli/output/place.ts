import { createHash } from 'node:crypto';
import { accessSync, constants, realpathSync, type Stats, statSync } from 'node:fs';
import { basename, dirname, join, resolve, sep } from 'node:path';
import { notWritten } from './errors.ts';

/** Where one output goes, links on the way followed, and the names of what lies beside it while it is written. */
export interface Place {
  /** As it was typed. */
  readonly stated: string;
  readonly path: string;
  readonly parent: string;
  /** Begins the name of everything that the writer puts beside the place for a while. */
  readonly prefix: string;
  readonly lock: string;
}

export function placeOf(stated: string): Place {
  const path = followed(resolve(stated));
  const parent = dirname(path);
  const prefix = `.ectype-${createHash('sha256').update(basename(path)).digest('hex').slice(0, 12)}`;
  return { stated, path, parent, prefix, lock: join(parent, `${prefix}.lock`) };
}

/** The path with all links followed as far as it exists. */
function followed(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    const parent = dirname(path);
    return parent === path ? path : join(followed(parent), basename(path));
  }
}

/** What lies at a path, links followed; null where nothing does. Throws where that cannot be known. */
export function statOf(path: string): Stats | null {
  try {
    return statSync(path, { throwIfNoEntry: false }) ?? null;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOTDIR') return null;
    throw error;
  }
}

export const isInside = (path: string, folder: string): boolean => path.startsWith(folder + sep);

/** Throws OutputError where nothing could be made in `parent`, or what is there is kept from writing: before the work, not after. */
export function refuseUnwritable({ stated, path, parent }: Place): void {
  let folder = parent;
  while (statOf(folder) === null && dirname(folder) !== folder) folder = dirname(folder);
  try {
    if (!statOf(folder)?.isDirectory()) throw Object.assign(new Error(), { code: 'ENOTDIR' });
    accessSync(folder, constants.W_OK | constants.X_OK);
    if (statOf(path)) accessSync(path, constants.W_OK);
  } catch (error) {
    throw notWritten(stated, error);
  }
}
