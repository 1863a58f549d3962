import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';

/** Paths of all files below a folder whose names end so, sorted. */
export const filesBelow = (folder: string, ending: string): string[] =>
  existsSync(folder)
    ? readdirSync(folder, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile() && entry.name.endsWith(ending))
        .map((entry) => join(entry.parentPath, entry.name))
        .sort()
    : [];
