import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { buildIdentity } from '../src/build/identity.mjs';

/** What the tests of the app, the package and the server read besides the command line. */
const read = ['dist/app/index.html', 'dist/app/offline.html', 'dist/core/index.d.ts'];

/** What the command line is bundled from. */
const sources = ['src', 'sample-scans/generator', 'package.json'];

/** When the newest of these files was written, ms. */
function newest(paths: readonly string[]): number {
  return Math.max(
    ...paths.map((path) => {
      const { mtimeMs } = statSync(path);
      if (!statSync(path).isDirectory()) return mtimeMs;
      return Math.max(mtimeMs, newest(readdirSync(path).map((name) => join(path, name))));
    }),
  );
}

/** The command line is as new as its sources and names the commit: `npm test` has just built it. */
function isNew(): boolean {
  if (!existsSync('dist/cli/THIRD-PARTY.txt')) return false;
  if (statSync('dist/cli/main.js').mtimeMs <= newest(sources)) return false;
  const said = execFileSync(process.execPath, ['dist/cli/main.js', '--version'], { encoding: 'utf8' });
  return said.includes(`(build ${buildIdentity()})`);
}

/**
 * Before all tests: the command line is built where a source is newer than it, and everything where the app or the library is not there
 * yet, so that no two files build into one folder at the same time.
 */
export default function setup(): void {
  const what = read.every((file) => existsSync(file)) ? 'build:cli' : 'build';
  if (what === 'build:cli' && isNew()) return;
  execFileSync('npm', ['run', '--silent', what], { stdio: 'inherit', shell: process.platform === 'win32' });
}
