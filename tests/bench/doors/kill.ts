import { mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { seededRandom } from '../../../src/core/geometry/index.ts';
import { killed, type Moment } from '../../cli/killing.ts';
import { ectype } from '../../cli/run.ts';
import { leftBeside, runIn } from '../../cli/runFolder.ts';
import { smallPair } from '../../cli/smallPair.ts';
import { type Row, tableOf } from '../table.ts';

/**
 * `npm run bench -- kill [COUNT]`: kill −9 at random moments of `compare` into the folder of a former run. Every third
 * falls anywhere in the run, the others while it writes. After each the folder must hold one whole run, or none while
 * the former one lies aside and comes back with the next.
 */
export async function kill(count: number, seed = 211): Promise<void> {
  const parent = mkdtempSync(join(tmpdir(), 'ectype-kill-'));
  const folder = join(parent, 'run');
  const args = [...smallPair(parent, 3000, 16), '--out', folder];
  const random = seededRandom(seed);
  const seen: Record<Moment | 'former' | 'new' | 'aside' | 'mixed', number> = {
    work: 0,
    writing: 0,
    after: 0,
    former: 0,
    new: 0,
    aside: 0,
    mixed: 0,
  };
  try {
    const began = Date.now();
    ectype('compare', ...args);
    const wholeMs = Date.now() - began;
    for (let k = 0; k < count; k++) {
      const before = runOrMixed(folder);
      const at = k % 3 === 0 ? { afterMs: random.between(0, wholeMs) } : { writingMs: random.between(0, 250) };
      seen[(await killed(['dist/cli/main.js', 'compare', ...args], parent, at)).moment]++;
      const now = runOrMixed(folder);
      const aside = readdirSync(parent).some((name) => name.endsWith('.old'));
      if (now === 'mixed' || (now === 'absent' && !aside)) seen.mixed++;
      else seen[now === 'absent' ? 'aside' : now === before ? 'former' : 'new']++;
      process.stderr.write(`\r${k + 1} of ${count}: ${Object.entries(seen).flat().join(' ')}`);
    }
    ectype('compare', ...args);
    process.stdout.write(`\n${tableOf(rowsOf(seen, parent, seed))}\n`);
  } finally {
    rmSync(parent, { recursive: true, force: true });
  }
}

function runOrMixed(folder: string): string {
  try {
    return runIn(folder);
  } catch (error) {
    process.stderr.write(`\n${(error as Error).message}\n`);
    return statSync(folder, { throwIfNoEntry: false }) ? 'mixed' : 'absent';
  }
}

function rowsOf(seen: Readonly<Record<string, number>>, parent: string, seed: number): Row[] {
  const row = (what: string, measured: number | string, floor = ''): Row => ({
    what,
    floor,
    measured: String(measured),
  });
  return [
    row(`killed at work / while writing / too late (seed ${seed})`, `${seen.work} / ${seen.writing} / ${seen.after}`),
    row('the former run, whole', seen.former),
    row('the new run, whole', seen.new),
    row('none in place, the former one aside', seen.aside),
    row('a folder of two runs, or a run lost', seen.mixed, '0'),
    row('left beside the folder after the next run', leftBeside(parent).length, '0'),
  ];
}
