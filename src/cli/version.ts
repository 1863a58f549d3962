import { readFileSync } from 'node:fs';

/** The version in package.json, two folders above the built command line. */
export const version: string = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')).version;

/** The source's commit that this was built from. */
export { build } from '../workers/build.ts';
