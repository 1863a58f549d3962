import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';

/** What the tests of the app, the package and the server read besides the command line. */
const read = ['dist/app/index.html', 'dist/app/offline.html', 'dist/core/index.d.ts'];

/**
 * Before all tests: the command line is built once, and everything where the app or the library is not there yet, so that no two files
 * build into one folder at the same time.
 */
export default function setup(): void {
  const what = read.every((file) => existsSync(file)) ? 'build:cli' : 'build';
  execFileSync('npm', ['run', '--silent', what], { stdio: 'inherit', shell: process.platform === 'win32' });
}
