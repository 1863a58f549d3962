import { execFileSync } from 'node:child_process';

/** Before all tests: the command line is built once, so that no two files build into one folder at the same time. */
export default function setup(): void {
  execFileSync('npm', ['run', '--silent', 'build:cli'], { stdio: 'inherit', shell: process.platform === 'win32' });
}
