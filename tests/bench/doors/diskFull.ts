import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ectypeAlone } from '../../cli/run.ts';
import { leftBeside, runIn } from '../../cli/runFolder.ts';
import { smallPair } from '../../cli/smallPair.ts';
import { tableOf } from '../table.ts';

/**
 * `npm run bench -- disk-full [SIZES]`: `compare` into the folder of a former run on a disk in memory that has room for
 * so much more, from nothing to more than enough. Needs the right to mount (root, Linux).
 */
export function diskFull(sizes: number): void {
  const parent = mkdtempSync(join(tmpdir(), 'ectype-full-'));
  const [model, disk] = [join(parent, 'model'), join(parent, 'disk')];
  const seen = { full: 0, done: 0, mixed: 0, left: 0, otherExit: 0 };
  mkdirSync(disk);
  const scans = smallPair(parent, 3000, 16);
  try {
    ectypeAlone('compare', ...scans, '--out', model);
    const run = bytesIn(model);
    for (let k = 0; k < sizes; k++) {
      execFileSync('mount', [
        '-t',
        'tmpfs',
        '-o',
        `size=${Math.ceil(run * (1 + (1.2 * k) / sizes)) + 16_384}`,
        'none',
        disk,
      ]);
      try {
        const folder = join(disk, 'run');
        execFileSync('cp', ['-r', model, folder]);
        const before = runIn(folder);
        const { status } = ectypeAlone('compare', ...scans, '--out', folder);
        const now = runOr(folder, 'mixed');
        if (status === 5 && now === before) seen.full++;
        else if (status === 0 && now !== 'mixed' && now !== before) seen.done++;
        else if (now === 'mixed' || now === 'absent') seen.mixed++;
        else seen.otherExit++;
        seen.left += leftBeside(disk).length;
      } finally {
        execFileSync('umount', [disk]);
      }
      process.stderr.write(`\r${k + 1} of ${sizes}`);
    }
  } finally {
    rmSync(parent, { recursive: true, force: true });
  }
  const rows = [
    ['exit 5, the former run whole', seen.full, ''],
    ['exit 0, the new run whole', seen.done, ''],
    ['a folder of two runs, or none', seen.mixed, '0'],
    ['another exit', seen.otherExit, '0'],
    ['left beside the folder', seen.left, '0'],
  ] as const;
  process.stdout.write(
    `\n${tableOf(rows.map(([what, count, floor]) => ({ what, floor, measured: String(count) })))}\n`,
  );
}

function runOr(folder: string, otherwise: string): string {
  try {
    return runIn(folder);
  } catch {
    return otherwise;
  }
}

/** Whole pages of memory, as the disk counts them. */
const bytesIn = (folder: string): number =>
  readdirSync(folder).reduce((sum, name) => sum + Math.ceil(statSync(join(folder, name)).size / 4096) * 4096, 4096);
