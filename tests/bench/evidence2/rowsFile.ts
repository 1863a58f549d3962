import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';

/**
 * A table that a bench adds lines to, begun with its columns where it is not there yet: the commit that the lines name, and the seeds that it has, which
 * are not scored again.
 */
export function rowsFile(file: string, columns: readonly string[]): { commit: string; done: ReadonlySet<string> } {
  const commit = execFileSync('git', ['rev-parse', '--short', 'HEAD'], { encoding: 'utf8' }).trim();
  if (!existsSync(file)) writeFileSync(file, `${columns.join(',')}\n`);
  const seeds = readFileSync(file, 'utf8')
    .split('\n')
    .map((line) => line.split(',')[0]);
  return { commit, done: new Set(seeds) };
}
