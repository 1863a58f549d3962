import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { judgeMeasured, measureWeighed, preparePair, weighPrepared } from '../../src/core/pipeline.ts';
import { writePly } from '../../src/core/scan/index.ts';
import { fixedWork } from './fixedWork.ts';
import type { Row } from './table.ts';

/** One run of the whole command, from two files to record and differences. */
interface Run {
  readonly wallSeconds: number;
  readonly cpuSeconds: number;
  /** From the start until the finding is told. */
  readonly toFinding: { readonly wallSeconds: number; readonly cpuSeconds: number };
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
 * `npm run bench -- speed [large]`: three sizes, four with `large`; each the whole command, the run of least processor time of three,
 * and the pair alone in a process that has compared it before; as a multiple of fixed work done in the same minutes, so that
 * machines and busy hours compare.
 */
export function speed(large: boolean): void {
  const sizes = [10_000, 100_000, 1_000_000, ...(large ? [5_000_000] : [])];
  const yardsticks: number[] = [];
  const lines = sizes.flatMap((vertices) => {
    const yardstick = fixedWork();
    yardsticks.push(yardstick);
    return withPair(vertices, (a, b, folder) => {
      const cold = leastOf(Array.from({ length: 3 }, () => timed(a, b, folder)));
      return [lineOf(vertices, 'cold', cold, yardstick), lineOf(vertices, 'warm', warm(a, b, vertices), yardstick)];
    });
  });
  process.stdout.write(
    [
      '| vertices a scan | process | to the finding: wall, s | CPU, s | whole: wall, s | CPU, s | most memory, GB | CPU ÷ fixed work | steps, wall s |',
      '|---|---|---|---|---|---|---|---|---|',
      ...lines,
      '',
      `Fixed work: ${yardsticks.map((value) => value.toFixed(2)).join(', ')} CPU s.`,
      '',
    ].join('\n'),
  );
}

const leastOf = (runs: readonly Run[]): Run => runs.reduce((x, y) => (x.cpuSeconds < y.cpuSeconds ? x : y));

function lineOf(vertices: number, state: string, run: Run, yardstick: number): string {
  const { wallSeconds, cpuSeconds, gigabytes, steps, toFinding } = run;
  const each = Object.entries(steps).map(([name, seconds]) => `${name} ${seconds.toFixed(2)}`);
  const first = [toFinding.wallSeconds, toFinding.cpuSeconds];
  const cells = [...first, wallSeconds, cpuSeconds, gigabytes, cpuSeconds / yardstick].map((value) => value.toFixed(2));
  return `| ${[vertices.toLocaleString('en'), state, ...cells, each.join(', ')].join(' | ')} |`;
}

/** The pair in a process that goes on: the least of those after the first. */
function warm(a: string, b: string, vertices: number): Run {
  const times = vertices > 300_000 ? 3 : 7;
  const { stdout, stderr, status } = spawnSync(
    process.execPath,
    ['dist/bench/main.js', 'speed-warm', a, b, String(times)],
    { encoding: 'utf8' },
  );
  if (status !== 0) throw new Error(stderr);
  return JSON.parse(stdout);
}

/** `npm run bench -- speed-warm REFERENCE SUBJECT TIMES`: the pair so many times in this process, without files written; a `Run`. */
export async function speedWarm(reference: string, subject: string, times: number): Promise<void> {
  const runs: Run[] = [];
  for (let k = 0; k < times; k++) {
    const [first, second] = [reference, subject].map((path) => ({
      name: path,
      bytes: new Uint8Array(readFileSync(path)),
      unit: 'mm' as const,
      sha256: () => '',
    }));
    const since = stopwatch();
    const weighed = weighPrepared(...(await preparePair(first, second)));
    const toFinding = since();
    judgeMeasured(measureWeighed(weighed));
    runs.push({ ...since(), toFinding, gigabytes: process.resourceUsage().maxRSS / 1e6, steps: {} });
  }
  process.stdout.write(`${JSON.stringify(leastOf(runs.slice(1)))}\n`);
}

/** Seconds of the clock and of the processors from now on. */
function stopwatch(): () => Run['toFinding'] {
  const [start, used] = [performance.now(), process.cpuUsage()];
  return () => {
    const { user, system } = process.cpuUsage(used);
    return { wallSeconds: (performance.now() - start) / 1000, cpuSeconds: (user + system) / 1e6 };
  };
}

const runsOf = (vertices: number, count: number): Run[] =>
  withPair(vertices, (a, b, folder) => Array.from({ length: count }, () => timed(a, b, folder)));

function withPair<Made>(vertices: number, make: (reference: string, subject: string, folder: string) => Made): Made {
  const folder = mkdtempSync(join(tmpdir(), 'ectype-bench-'));
  try {
    const pair = makePair({ ...randomRecipe(7, 'same', { vertices, coverage: [1, 1] }), whole: false });
    const [a, b] = [pair.reference, pair.subject].map((scan, k) => {
      const path = join(folder, `${k}.ply`);
      writeFileSync(path, writePly(Float32Array.from(scan.positions), scan.triangles));
      return path;
    });
    return make(a, b, folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** In the child: what it used when its first word was written, and at its end; all its threads together, which report as they end too. */
const reporting = `
  const used = () => { const u = process.resourceUsage(); return performance.now() + ' ' + (u.userCPUTime + u.systemCPUTime) + ' ' + u.maxRSS; };
  const write = process.stdout.write;
  process.stdout.write = function (...all) {
    console.error('TOLD ' + used());
    process.stdout.write = write;
    return write.apply(this, all);
  };
  process.on('exit', () => console.error('USED ' + used()));
`;

function timed(reference: string, subject: string, folder: string): Run {
  const record = join(folder, 'r.json');
  const files = ['--json', record, '--differences', join(folder, 'd.ply')];
  const start = performance.now();
  const { stderr, status } = spawnSync(
    process.execPath,
    [
      ...['--import', `data:text/javascript,${encodeURIComponent(reporting)}`],
      ...['dist/cli/main.js', 'compare', reference, subject, ...files],
    ],
    // Where a machine names certificates of its own, Node 20 reads all of them at each start.
    { encoding: 'utf8', env: { ...process.env, NODE_EXTRA_CA_CERTS: undefined } },
  );
  if (status !== 0) throw new Error(stderr);
  const [told, whole] = ['TOLD', 'USED'].map((word) => {
    const line = stderr.split('\n').findLast((one) => one.startsWith(word)) ?? '';
    const [milliseconds, microseconds, kilobytes] = line.split(' ').slice(1).map(Number);
    return { wallSeconds: milliseconds / 1000, cpuSeconds: microseconds / 1e6, gigabytes: kilobytes / 1e6 };
  });
  return {
    ...whole,
    toFinding: told,
    wallSeconds: (performance.now() - start) / 1000,
    steps: JSON.parse(readFileSync(record, 'utf8')).paradata.seconds,
  };
}
