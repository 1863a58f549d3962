import { execFileSync } from 'node:child_process';
import { realpathSync } from 'node:fs';
import { resolve } from 'node:path';

/** The project's folder. */
export const root = resolve(import.meta.dirname, '../..');

/**
 * The commit that is built, twelve digits, with "+changed" where files differ from it; "unknown" where the project's
 * folder is not a clone.
 */
export function buildIdentity() {
  const git = (...args) =>
    execFileSync('git', ['-C', root, ...args], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }).trim();
  try {
    if (realpathSync(git('rev-parse', '--show-toplevel')) !== realpathSync(root)) return 'unknown';
    return git('rev-parse', '--short=12', 'HEAD') + (git('status', '--porcelain') === '' ? '' : '+changed');
  } catch {
    return 'unknown';
  }
}

/** What the build puts into the code. */
export const defined = () => ({ __ECTYPE_BUILD__: JSON.stringify(buildIdentity()) });
