import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { writePly } from '../../src/core/scan/index.ts';
import { account, ectypeAlone, usedBy } from '../cli/run.ts';
import { tableOf } from './table.ts';

/**
 * CPU seconds of a collection of `seals` matrices with an impression each: all by one worker, by two at once (the busier of them), and
 * one more object into its place. CPU, not the clock on the wall: other work on the machine then says little.
 */
export async function collectionSpeed(seals: number, vertices = 20_000): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'ectype-collection-speed-'));
  try {
    const lines = scansIn(folder, seals + 1, vertices);
    const all = join(folder, 'all.csv');
    const last = join(folder, 'last.csv');
    writeFileSync(all, `${[head, ...lines.slice(0, -1)].join('\n')}\n`);
    writeFileSync(last, [head, lines.at(-1)].join('\n'));
    const listed = (name: string): string => {
      ectypeAlone('add', all, '--to', join(folder, name), '--only-list');
      return join(folder, name);
    };
    const [one] = await measured('worker', '--in', listed('one'));
    const shared = listed('two');
    const both = [measured('worker', '--in', shared), measured('worker', '--in', shared)];
    const busier = Math.max(...(await Promise.all(both)).map(([seconds]) => seconds));
    const [more, megabytes] = await measured('add', last, '--to', join(folder, 'one'));
    const s = (seconds: number): string => `${seconds.toFixed(1)} s`;
    process.stdout.write(
      `${tableOf([
        { what: `${2 * seals + 1} objects by one worker`, floor: '', measured: s(one) },
        {
          what: 'the busier of two workers',
          floor: "0.6 of one's",
          measured: `${s(busier)}, ${(busier / one).toFixed(2)} of one's`,
        },
        { what: 'one object more', floor: '5 s', measured: `${s(more)}, ${megabytes.toFixed(0)} MB` },
      ])}\n`,
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const head = 'file,shelfmark,kind,unit';

function scansIn(folder: string, seals: number, vertices: number): string[] {
  return Array.from({ length: seals }, (_, k) => {
    const pair = makePair({ ...randomRecipe(4000 + k, 'same', { vertices }), whole: false });
    return (['reference', 'subject'] as const).map((side) => {
      const kind = side === 'reference' ? 'matrix' : 'impression';
      writeFileSync(join(folder, `${k}-${kind}.ply`), writePly(pair[side].positions, pair[side].triangles));
      return `${k}-${kind}.ply,"Seal ${k}, ${kind}",${kind},mm`;
    });
  }).flat();
}

/** Runs a verb to its end, however long that takes: CPU seconds and megabytes. */
function measured(...args: readonly string[]): Promise<[seconds: number, megabytes: number]> {
  const child = spawn(process.execPath, ['--import', account, 'dist/cli/main.js', ...args], {
    stdio: ['ignore', 'ignore', 'inherit', 'pipe'],
  });
  let used = '';
  child.stdio[3]?.on('data', (chunk: Buffer) => {
    used += chunk.toString();
  });
  return new Promise((resolve) => child.once('close', () => resolve(usedBy(used))));
}
