import { spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join, relative, resolve } from 'node:path';
import { seededRandom } from '../../../src/core/geometry/index.ts';
import { named } from './named.ts';
import { differs, type Mutant, mutantsOf, mutated } from './operators.ts';

const folders = ['fit', 'compare', 'condition', 'judge'];
const most = 15 * 60_000;

/** What is asked of a mutant: the tests that ought to see it, one file after the other, the nearest first. */
interface Trial extends Mutant {
  readonly tests: readonly string[];
  readonly text: string;
}

interface Outcome {
  readonly trial: Trial;
  /** The test file that failed, `time` where the run did not end, null where all passed. */
  readonly killedBy: string | null;
}

/**
 * `npm run bench -- mutants [N] [SEED]`: the named mutants and a seeded sample of N others, each in a copy of the
 * sources beside which the related tests run until one fails. The tests of a file are those of its own name, then its
 * folder's, then what runs through it from end to end.
 */
export function mutants(count: number, seed: number, namedToo = true): void {
  const copy = mkdtempSync(join(tmpdir(), 'ectype-mutants-'));
  try {
    for (const name of ['src', 'tests', 'sample-scans', 'package.json', 'tsconfig.json'])
      cpSync(name, join(copy, name), { recursive: true });
    symlinkSync(resolve('node_modules'), join(copy, 'node_modules'));
    writeFileSync(join(copy, 'vitest.config.ts'), config);
    const trials = [...(namedToo ? namedTrials() : []), ...sample(count, seed)];
    const fails = soundBefore(copy, trials);
    const outcomes = trials.map((trial, i) => {
      const outcome = tried(copy, trial, fails);
      process.stderr.write(`${i + 1}/${trials.length} ${lineOf(outcome)}\n`);
      return outcome;
    });
    process.stdout.write(`${table(outcomes)}\n`);
  } finally {
    rmSync(copy, { recursive: true, force: true });
  }
}

const config = `import { defineConfig } from 'vitest/config';
export default defineConfig({ test: { include: ['tests/**/*.test.ts'], testTimeout: 300_000, hookTimeout: 300_000, maxWorkers: 1 } });
`;

/** The tests that fail without any mutant: they would kill everything, so they are told and left out. */
function soundBefore(copy: string, trials: readonly Trial[]): ReadonlySet<string> {
  const fails = failing(copy, [...new Set(trials.flatMap(({ tests }) => tests))], false);
  if (fails === 'time') throw new Error('The tests without a mutant did not end in time.');
  for (const test of fails) process.stderr.write(`left out, fails without a mutant: ${test}\n`);
  return new Set(fails);
}

/** The nearest test by itself, since it mostly kills; then all others in one run. */
function tried(copy: string, trial: Trial, leftOut: ReadonlySet<string>): Outcome {
  const path = join(copy, trial.file);
  const [first, ...others] = trial.tests.filter((each) => !leftOut.has(each));
  writeFileSync(path, mutated(trial.text, trial));
  try {
    for (const tests of [[first], others]) {
      const fails = failing(copy, tests, true);
      if (fails.length > 0) return { trial, killedBy: fails === 'time' ? 'time' : fails[0] };
    }
    return { trial, killedBy: null };
  } finally {
    writeFileSync(path, trial.text);
  }
}

/** The test files that fail, with `bail` the first alone. */
function failing(copy: string, tests: readonly string[], bail: boolean): readonly string[] | 'time' {
  if (tests.length === 0) return [];
  const said = join(copy, 'said.json');
  rmSync(said, { force: true });
  const { signal, status } = spawnSync(
    'node',
    [
      'node_modules/vitest/vitest.mjs',
      'run',
      ...tests,
      `--bail=${bail ? 1 : 0}`,
      '--reporter=json',
      `--outputFile=${said}`,
    ],
    { cwd: copy, stdio: 'ignore', timeout: most },
  );
  if (signal) return 'time';
  if (status === 0) return [];
  if (!existsSync(said)) return ['no test file could be read'];
  const { testResults } = JSON.parse(readFileSync(said, 'utf8')) as { testResults: { name: string; status: string }[] };
  return testResults.filter((each) => each.status === 'failed').map(({ name }) => relative(realpathSync(copy), name));
}

const filesBelow = (folder: string, ending: string): string[] =>
  existsSync(folder)
    ? readdirSync(folder, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile() && entry.name.endsWith(ending))
        .map((entry) => join(entry.parentPath, entry.name))
        .sort()
    : [];

/** What runs through the four folders from end to end and takes seconds, not minutes. */
const throughAll = ['tests/session.test.ts', 'tests/pipeline.test.ts'];

/** The test of a file's own name, then those of its folder, then of the folders above it, then what runs through all. */
function testsOf(file: string): string[] {
  const own = file.replace('src/core', 'tests').replace(/\.ts$/, '.test.ts');
  const out = existsSync(own) ? [own] : [];
  for (let folder = dirname(own); folder !== 'tests'; folder = dirname(folder))
    out.push(...filesBelow(folder, '.test.ts'));
  return [...new Set([...out, ...throughAll.filter((test) => existsSync(test))])];
}

function namedTrials(): Trial[] {
  return named.map(({ file, find, put, tests }): Trial => {
    const text = readFileSync(file, 'utf8');
    const at = text.indexOf(find);
    const mutant = { file, at, find, put, operator: 'named' };
    if (at < 0 || text.indexOf(find, at + 1) >= 0 || !differs(text, mutant))
      throw new Error(`The named mutant “${find}” does not stand once in ${file}.`);
    return { ...mutant, text, tests: tests ?? testsOf(file) };
  });
}

/** Every mutant has one chance: first all are listed, then so many are drawn without putting back. */
function sample(count: number, seed: number): Trial[] {
  const all = folders
    .flatMap((folder) => filesBelow(join('src/core', folder), '.ts'))
    .filter((file) => !['index.ts', 'types.ts', 'figures.ts'].includes(basename(file)))
    .flatMap((file) => {
      const text = readFileSync(file, 'utf8');
      return mutantsOf(file, text).map((mutant) => ({ ...mutant, text, tests: testsOf(file) }));
    });
  const random = seededRandom(seed);
  process.stderr.write(`${all.length} mutants possible, ${Math.min(count, all.length)} drawn with seed ${seed}\n`);
  return Array.from({ length: Math.min(count, all.length) }, () => {
    const [one] = all.splice(Math.floor(random.between(0, all.length)), 1);
    return one;
  });
}

function lineOf({ trial: { file, text, at, find, put, operator }, killedBy }: Outcome): string {
  const line = text.slice(0, at).split('\n').length;
  const flat = (part: string): string => part.trim().replaceAll(/\s+/g, ' ');
  return `${killedBy ? 'killed' : 'SURVIVED'} | ${operator} | ${file}:${line} | \`${flat(find)}\` → \`${flat(put)}\` | ${killedBy ?? ''}`;
}

/** Killed and survived by operator, then every survivor with the line before and after. */
function table(outcomes: readonly Outcome[]): string {
  const rows = [...new Set(outcomes.map(({ trial }) => trial.operator))].map((operator) => {
    const of = outcomes.filter(({ trial }) => trial.operator === operator);
    return `| ${operator} | ${of.length} | ${of.filter(({ killedBy }) => killedBy !== null).length} |`;
  });
  const killed = outcomes.filter(({ killedBy }) => killedBy !== null).length;
  const survivors = outcomes.filter(({ killedBy }) => killedBy === null);
  return [
    '| operator | mutants | killed |',
    '| --- | --- | --- |',
    ...rows,
    `| all | ${outcomes.length} | ${killed} (${((100 * killed) / outcomes.length).toFixed(0)} %) |`,
    ...survivors.map(({ trial }) => `\n${trial.file}, ${trial.operator}\n${diff(trial)}`),
  ].join('\n');
}

function diff(trial: Trial): string {
  const before = trial.text.split('\n');
  const after = mutated(trial.text, trial).split('\n');
  return before
    .flatMap((line, i) => (line === after[i] ? [] : [`- ${line.trim()}`, `+ ${after[i]?.trim()}`]))
    .join('\n');
}
