import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { BufferAttribute, BufferGeometry, Vector3 } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { writePly } from '../../src/core/scan/index.ts';
import type { Row } from './table.ts';

/** One run of the whole command, from two files to record and differences. */
interface Run {
  readonly wallSeconds: number;
  readonly cpuSeconds: number;
  readonly gigabytes: number;
  /** Wall seconds of each step, as the record states them. */
  readonly steps: Readonly<Record<string, number>>;
}

/** Whole command, from two files to record and differences: wall time and greatest memory, best of three. */
export function speedRows(): Row[] {
  return [speedOf(100_000, 'at most 2 s'), speedOf(1_000_000, 'at most 8 s and 1.5 GB')];
}

function speedOf(vertices: number, floor: string): Row {
  const best = runsOf(vertices, 3).reduce((x, y) => (x.wallSeconds < y.wallSeconds ? x : y));
  return {
    what: `compare, two scans of ${vertices.toLocaleString('en')} vertices, whole command`,
    floor,
    measured: `${best.wallSeconds.toFixed(2)} s, ${best.gigabytes.toFixed(2)} GB`,
  };
}

/**
 * `npm run bench -- speed [large]`: three sizes, four with `large`; each the run of least processor time of three, with its
 * steps, and as a multiple of fixed work done in the same minutes, so that machines and busy hours compare.
 */
export function speed(large: boolean): void {
  const sizes = [10_000, 100_000, 1_000_000, ...(large ? [5_000_000] : [])];
  const yardsticks: number[] = [];
  const lines = sizes.map((vertices) => {
    const yardstick = referenceWork();
    yardsticks.push(yardstick);
    const best = runsOf(vertices, 3).reduce((x, y) => (x.cpuSeconds < y.cpuSeconds ? x : y));
    const { wallSeconds, cpuSeconds, gigabytes, steps } = best;
    const each = Object.entries(steps).map(([name, seconds]) => `${name} ${seconds.toFixed(2)}`);
    const cells = [wallSeconds, cpuSeconds, gigabytes, cpuSeconds / yardstick].map((value) => value.toFixed(2));
    return `| ${[vertices.toLocaleString('en'), ...cells, each.join(', ')].join(' | ')} |`;
  });
  process.stdout.write(
    [
      '| vertices a scan | wall, s | CPU, s | most memory, GB | CPU ÷ fixed work | steps, wall s |',
      '|---|---|---|---|---|---|',
      ...lines,
      '',
      `Fixed work: ${yardsticks.map((value) => value.toFixed(2)).join(', ')} CPU s.`,
      '',
    ].join('\n'),
  );
}

function runsOf(vertices: number, count: number): Run[] {
  const folder = mkdtempSync(join(tmpdir(), 'ectype-bench-'));
  try {
    const pair = makePair({ ...randomRecipe(7, 'same', { vertices, coverage: [1, 1] }), whole: false });
    const [a, b] = [pair.reference, pair.subject].map((scan, k) => {
      const path = join(folder, `${k}.ply`);
      writeFileSync(path, writePly(Float32Array.from(scan.positions), scan.triangles));
      return path;
    });
    return Array.from({ length: count }, () => timed(a, b, folder));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Processor time and peak memory are what the child reports of itself at its end, all its threads together: threads report as they end too. */
function timed(reference: string, subject: string, folder: string): Run {
  const report =
    "process.on('exit',()=>{const u=process.resourceUsage();console.error('USED '+u.maxRSS+' '+(u.userCPUTime+u.systemCPUTime))})";
  const record = join(folder, 'r.json');
  const files = ['--json', record, '--differences', join(folder, 'd.ply')];
  const start = performance.now();
  const { stderr, status } = spawnSync(
    process.execPath,
    [
      ...['--import', `data:text/javascript,${encodeURIComponent(report)}`],
      ...['dist/cli/main.js', 'compare', reference, subject, ...files],
    ],
    { encoding: 'utf8' },
  );
  if (status !== 0) throw new Error(stderr);
  const [, kilobytes, microseconds] = [...stderr.matchAll(/USED (\d+) (\d+)/g)].at(-1) ?? [];
  return {
    wallSeconds: (performance.now() - start) / 1000,
    cpuSeconds: Number(microseconds) / 1e6,
    gigabytes: Number(kilobytes) / 1e6,
    steps: JSON.parse(readFileSync(record, 'utf8')).paradata.seconds,
  };
}

/**
 * CPU seconds of work that never changes: a bounding volume hierarchy over two million triangles of a wavy sheet of a
 * million vertices, and the closest place to 200,000 points beside it, by a library that this program does not use.
 */
function referenceWork(): number {
  const across = 1000;
  const positions = new Float32Array(3 * across * across);
  for (let i = 0; i < across * across; i++)
    positions.set([i % across, Math.floor(i / across), 8 * Math.sin(i * 0.013) * Math.cos(i * 0.000_02)], 3 * i);
  const corners = new Uint32Array(6 * (across - 1) ** 2);
  for (let row = 0, at = 0; row + 1 < across; row++)
    for (let col = 0; col + 1 < across; col++, at += 6) {
      const a = row * across + col;
      corners.set([a, a + 1, a + across, a + 1, a + across + 1, a + across], at);
    }
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(positions, 3));
  geometry.setIndex(new BufferAttribute(corners, 1));
  const start = process.cpuUsage();
  const tree = new MeshBVH(geometry);
  const point = new Vector3();
  for (let q = 0; q < 200_000; q++)
    tree.closestPointToPoint(point.set((q * 7.31) % across, (q * 0.005) % across, (q % 20) - 10));
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1e6;
}
