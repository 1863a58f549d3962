import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { SourceMap } from 'node:module';
import { tmpdir } from 'node:os';
import { basename, dirname, join, relative } from 'node:path';
import { filesBelow } from './filesBelow.ts';

/** What one test file runs through and how long it takes alone, seconds of the processor. */
interface TestRun {
  readonly test: string;
  readonly seconds: number;
  /** Lines inside functions that were run, by source file. A file that was only loaded has none. */
  readonly lines: Readonly<Record<string, readonly number[]>>;
}

export type Coverage = readonly TestRun[];

/**
 * Which test files run which lines of the core. Kept in a temporary folder: of a test file until it changes, of all until
 * the sources or what tests share change.
 */
export async function coverageOf(copy: string, folders: readonly string[]): Promise<Coverage> {
  const kept = join(tmpdir(), `ectype-coverage-${sharedHash(copy, folders)}.json`);
  const known: Record<string, TestRun> = existsSync(kept) ? JSON.parse(readFileSync(kept, 'utf8')) : {};
  const tests = filesBelow(join(copy, 'tests'), '.test.ts')
    .map((path) => relative(copy, path))
    .filter((test) => folders.some((folder) => test.startsWith(`tests/${folder}`)));
  const keyOf = (test: string): string => `${test} ${hashOf([join(copy, test)])}`;
  const missing = tests.filter((test) => !known[keyOf(test)]);
  writeFileSync(join(copy, 'vitest.config.ts'), config);
  // A few at a time: what is known stays when this is stopped.
  for (let k = 0; k < missing.length; k += 8) {
    const some = missing.slice(k, k + 8);
    for (const run of counted(copy, some)) known[keyOf(run.test)] = run;
    writeFileSync(kept, JSON.stringify(known));
    process.stderr.write(`coverage: ${Math.min(k + 8, missing.length)} of ${missing.length} test files\n`);
  }
  const runs = tests.flatMap((test) => known[keyOf(test)] ?? []);
  if (runs.length < 0.9 * tests.length)
    throw new Error(
      `Only ${runs.length} of ${tests.length} test files pass without a mutant: what survives would say nothing.`,
    );
  return runs;
}

function counted(copy: string, tests: readonly string[]): Coverage {
  const raw = join(copy, 'coverage');
  const said = join(copy, 'coverage.json');
  mkdirSync(raw, { recursive: true });
  spawnSync('node', ['node_modules/vitest/vitest.mjs', 'run', ...tests, '--reporter=json', `--outputFile=${said}`], {
    cwd: copy,
    stdio: 'ignore',
    env: { ...process.env, COVERAGE_TO: raw },
  });
  return readRuns(copy, raw, said);
}

const config = `import { defineConfig } from 'vitest/config';
import { kernelsForVite } from './src/build/kernels.mjs';
export default defineConfig({ plugins: [kernelsForVite()], test: { include: ['tests/**/*.test.ts'], setupFiles: ['tests/bench/mutants/counted.mjs'], testTimeout: 300_000, hookTimeout: 300_000, maxWorkers: 1, pool: 'threads' } });
`;

const hashOf = (paths: readonly string[]): string =>
  paths
    .reduce((hash, path) => hash.update(basename(path)).update(readFileSync(path)), createHash('sha256'))
    .digest('hex')
    .slice(0, 16);

function sharedHash(copy: string, folders: readonly string[]): string {
  const shared = folders.flatMap((folder) =>
    filesBelow(join(copy, 'tests', folder), '.ts').filter((path) => !path.endsWith('.test.ts')),
  );
  return hashOf([
    ...filesBelow(join(copy, 'src/core'), '.ts'),
    ...filesBelow(join(copy, 'sample-scans'), '.ts'),
    ...shared,
  ]);
}

/** Test files that fail without any mutant would kill everything: they are told and left out. */
function readRuns(copy: string, raw: string, said: string): Coverage {
  const { testResults } = JSON.parse(readFileSync(said, 'utf8')) as {
    testResults: { name: string; status: string }[];
  };
  const places = new Map<string, readonly Place[]>();
  return testResults.flatMap(({ name, status }): TestRun[] => {
    const test = relative(copy, name);
    const counted = join(raw, `${test.replaceAll('/', '+')}.json`);
    if (status !== 'passed' || !existsSync(counted)) {
      process.stderr.write(`left out, fails without a mutant: ${test}\n`);
      return [];
    }
    const { scripts, seconds } = JSON.parse(readFileSync(counted, 'utf8')) as { scripts: Counted[]; seconds: number };
    const lines = Object.fromEntries(
      scripts.map((script) => {
        const own =
          places.get(script.file) ??
          placesOf(readFileSync(join(raw, `${script.file.replaceAll('/', '+')}.text`), 'utf8'));
        places.set(script.file, own);
        return [script.file, linesRun(own, script)];
      }),
    );
    return [{ test, seconds, lines }];
  });
}

interface Range {
  readonly startOffset: number;
  readonly endOffset: number;
  readonly count: number;
}

interface Counted {
  readonly file: string;
  /** By function, its own range first, then the blocks in it that were run more or less often. */
  readonly functions: readonly (readonly Range[])[];
}

/** A word of the transformed text and the line that it came from. */
interface Place {
  readonly at: number;
  readonly line: number;
}

function placesOf(text: string): Place[] {
  const encoded = /sourceMappingURL=data:application\/json;[^,]*base64,([\w+/=]+)/.exec(text)?.[1];
  if (!encoded) return [];
  const map = new SourceMap(JSON.parse(Buffer.from(encoded, 'base64').toString()));
  const places: Place[] = [];
  let start = 0;
  text.split('\n').forEach((row, generated) => {
    if (!row.startsWith('//#'))
      for (const { index } of row.matchAll(/[\w$.]+|[^\w\s]/g)) {
        const entry = map.findEntry(generated, index) as { originalLine?: number };
        if (entry.originalLine !== undefined) places.push({ at: start + index, line: entry.originalLine + 1 });
      }
    start += row.length + 1;
  });
  return places;
}

/** The innermost range decides; what only the module's own body runs is left out. */
function linesRun(places: readonly Place[], { functions }: Counted): number[] {
  const end = Math.max(...functions.map(([own]) => own.endOffset));
  const size = new Uint32Array(end + 1).fill(0xffffffff);
  const run = new Uint8Array(end + 1);
  for (const ranges of functions) {
    if (ranges[0].startOffset < 20) continue;
    for (const { startOffset, endOffset, count } of ranges)
      for (let k = startOffset; k < endOffset; k++)
        if (endOffset - startOffset <= size[k]) {
          size[k] = endOffset - startOffset;
          run[k] = count > 0 ? 1 : 0;
        }
  }
  return [...new Set(places.filter(({ at }) => run[at] === 1).map(({ line }) => line))];
}

/**
 * The test files that run a line, the nearest first (of the file's own name, then of its folder), then the shortest; those that are not near
 * only as long as the sum stays within `mostSeconds`. For a line outside every function (a figure, a table): those that run anything of the file.
 */
export function testsThatRun(coverage: Coverage, file: string, line: number, mostSeconds: number): string[] {
  const inFunction = coverage.some(({ lines }) => lines[file]?.includes(line));
  const running = coverage.filter(({ lines }) =>
    inFunction ? lines[file]?.includes(line) : (lines[file]?.length ?? 0) > 0,
  );
  const own = file.replace('src/core', 'tests').replace(/\.ts$/, '.test.ts');
  const far = ({ test }: TestRun): number =>
    test === own ? 0 : dirname(test) === dirname(own) ? 1 : test.includes(basename(own, '.test.ts')) ? 1 : 2;
  let sum = 0;
  return [...running]
    .sort((a, b) => Number(far(a) > 0) - Number(far(b) > 0) || a.seconds - b.seconds)
    .filter((run) => {
      sum += run.seconds;
      return far(run) === 0 || sum <= mostSeconds;
    })
    .map(({ test }) => test);
}
