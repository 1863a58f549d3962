import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename } from 'node:path';

/** A font by its path in an installed package; the built command line carries it in fonts/ beside itself. */
export function fontFile(path: string): Uint8Array {
  const beside = new URL(`./fonts/${basename(path)}`, import.meta.url);
  return readFileSync(existsSync(beside) ? beside : createRequire(import.meta.url).resolve(path));
}

/** The same as the build unpacked it, since who paints would unpack it for each picture; packed where nothing was built. */
export function unpackedFont(path: string): Uint8Array {
  const beside = new URL(`./fonts/${basename(path, '.woff2')}.ttf`, import.meta.url);
  return existsSync(beside) ? readFileSync(beside) : fontFile(path);
}
