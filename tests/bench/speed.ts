import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { writePly } from '../../src/core/scan/index.ts';
import type { Row } from './table.ts';

/** Whole command, from two files to record and differences: wall time and greatest memory, best of three. */
export function speedRows(): Row[] {
  return [speedOf(100_000, 'at most 2 s'), speedOf(1_000_000, 'at most 8 s and 1.5 GB')];
}

function speedOf(vertices: number, floor: string): Row {
  const folder = mkdtempSync(join(tmpdir(), 'ectype-bench-'));
  try {
    const pair = makePair({ ...randomRecipe(7, 'same', { vertices, coverage: [1, 1] }), whole: false });
    const [a, b] = [pair.reference, pair.subject].map((scan, k) => {
      const path = join(folder, `${k}.ply`);
      writeFileSync(path, writePly(Float32Array.from(scan.positions), scan.triangles));
      return path;
    });
    const runs = [1, 2, 3].map(() =>
      timed([
        'dist/cli/main.js',
        'compare',
        a,
        b,
        '--json',
        join(folder, 'r.json'),
        '--differences',
        join(folder, 'd.ply'),
      ]),
    );
    const best = runs.reduce((x, y) => (x.seconds < y.seconds ? x : y));
    return {
      what: `compare, two scans of ${vertices.toLocaleString('en')} vertices, whole command`,
      floor,
      measured: `${best.seconds.toFixed(2)} s, ${(best.kilobytes / 1e6).toFixed(2)} GB`,
    };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Peak memory is what the child reports of itself at its end. */
function timed(args: readonly string[]): { seconds: number; kilobytes: number } {
  const report = "process.on('exit',()=>console.error('RSS '+process.resourceUsage().maxRSS))";
  const start = performance.now();
  const { stderr, status } = spawnSync(
    process.execPath,
    ['--import', `data:text/javascript,${encodeURIComponent(report)}`, ...args],
    { encoding: 'utf8' },
  );
  if (status !== 0) throw new Error(stderr);
  return { seconds: (performance.now() - start) / 1000, kilobytes: Number(/RSS (\d+)/.exec(stderr)?.[1]) };
}
