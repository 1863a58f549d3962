import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join, relative, resolve } from 'node:path';
import { seededRandom } from '../../../src/core/geometry/index.ts';
import { type Asker, startAsker } from './asker.ts';
import { type Coverage, coverageOf, testsThatRun } from './coverage.ts';
import { filesBelow } from './filesBelow.ts';
import { named } from './named.ts';
import { differs, type Mutant, mutantsOf, mutated } from './operators.ts';

const folders = ['fit', 'compare', 'condition', 'judge'];
/** Tests of the steps and of the whole way; the rest of the suite asks other things and takes longer. */
export const asked = [
  'fit',
  'compare',
  'condition',
  'judge',
  'design',
  'report',
  'figures',
  'kernels',
  'session',
  'pipeline',
  'leaveOut',
];
/** How long the tests asked of one mutant may take in sum, without a mutant, seconds: the nearest ones, then the shortest. */
const mostSeconds = 30;

interface Trial extends Mutant {
  readonly text: string;
}

interface Outcome {
  readonly trial: Trial;
  /** The test file that failed, `time` where the run did not end, null where all passed. */
  readonly killedBy: string | null;
}

/**
 * `npm run bench -- mutants [N] [SEED] [NAMED] [PART]`: the named mutants and a seeded sample of N others, each in a copy of the sources, beside
 * which the tests run that were seen to run through its line, until one fails. NAMED 0 leaves the named
 * ones out; PART draws from the files alone whose path holds it.
 */
export async function mutants(count: number, seed: number, namedToo = true, below = ''): Promise<void> {
  const copy = mkdtempSync(join(tmpdir(), 'ectype-mutants-'));
  try {
    for (const name of ['src', 'tests', 'sample-scans', 'package.json', 'tsconfig.json'])
      cpSync(name, join(copy, name), { recursive: true });
    symlinkSync(resolve('node_modules'), join(copy, 'node_modules'));
    const coverage = await coverageOf(copy, asked);
    const asker = await startAsker(copy);
    const outcomes: Outcome[] = [];
    const unsound = new Set<string>();
    const trials = [...(namedToo ? namedTrials(copy) : []), ...sample(copy, count, seed, below)];
    for (const trial of trials) {
      const outcome = await tried(copy, asker, coverage, unsound, trial);
      outcomes.push(outcome);
      process.stderr.write(`${outcomes.length}/${trials.length} ${lineOf(outcome)}\n`);
    }
    asker.stop();
    process.stdout.write(`${table(outcomes)}\n`);
  } finally {
    rmSync(copy, { recursive: true, force: true });
  }
}

async function tried(
  copy: string,
  asker: Asker,
  coverage: Coverage,
  unsound: Set<string>,
  trial: Trial,
): Promise<Outcome> {
  const path = join(copy, trial.file);
  const ask = async (tests: readonly string[]): Promise<string | null> => {
    const failed = await asker.ask(
      [path],
      tests.map((test) => join(copy, test)),
    );
    return failed && failed !== 'time' ? relative(copy, failed) : failed;
  };
  // What has a name is asked of every test that runs it, however long.
  const most = trial.operator === 'named' ? Number.POSITIVE_INFINITY : mostSeconds;
  for (;;) {
    const tests = testsThatRun(coverage, trial.file, lineAt(trial), most).filter((test) => !unsound.has(test));
    if (tests.length === 0) return { trial, killedBy: null };
    writeFileSync(path, mutated(trial.text, trial));
    const killedBy = await ask(tests);
    writeFileSync(path, trial.text);
    // The file as it was is looked at before the next mutant, and so is the word of a test that kills for the first time.
    const failsAnyway = await ask(killedBy && killedBy !== 'time' && !sound.has(killedBy) ? [killedBy] : []);
    if (!killedBy || killedBy === 'time' || !failsAnyway) {
      if (killedBy) sound.add(killedBy);
      return { trial, killedBy };
    }
    process.stderr.write(`left out, fails without a mutant: ${killedBy}\n`);
    unsound.add(killedBy);
  }
}

/** Test files that killed something and passed without it. */
const sound = new Set<string>();

const lineAt = ({ text, at }: Trial): number => text.slice(0, at).split('\n').length;

function namedTrials(copy: string): Trial[] {
  return named.map(({ file, find, put }): Trial => {
    const text = readFileSync(join(copy, file), 'utf8');
    const at = text.indexOf(find);
    const mutant = { file, at, find, put, operator: 'named' };
    if (at < 0 || text.indexOf(find, at + 1) >= 0 || !differs(text, mutant))
      throw new Error(`The named mutant “${find}” does not stand once in ${file}.`);
    return { ...mutant, text };
  });
}

/** Every mutant has one chance: from the copy, which stays as it is while the sources change, first all are listed, then so many are drawn without putting back. */
function sample(copy: string, count: number, seed: number, below: string): Trial[] {
  const all = folders
    .flatMap((folder) => filesBelow(join(copy, 'src/core', folder), '.ts'))
    .map((path) => relative(copy, path))
    .filter((file) => file.includes(below) && !['index.ts', 'types.ts', 'figures.ts'].includes(basename(file)))
    .flatMap((file) => {
      const text = readFileSync(join(copy, file), 'utf8');
      return mutantsOf(file, text).map((mutant) => ({ ...mutant, text }));
    });
  const random = seededRandom(seed);
  process.stderr.write(`${all.length} places, ${Math.min(count, all.length)} drawn with seed ${seed}\n`);
  const drawn: Trial[] = [];
  while (drawn.length < count && all.length > 0) {
    const [one] = all.splice(Math.floor(random.between(0, all.length)), 1);
    // A type changed, or what comes out is no program: it is drawn again.
    if (differs(one.text, one)) drawn.push(one);
  }
  return drawn;
}

function lineOf({ trial, killedBy }: Outcome): string {
  const { file, find, put, operator } = trial;
  const flat = (part: string): string => part.trim().replaceAll(/\s+/g, ' ');
  return `${killedBy ? 'killed' : 'SURVIVED'} | ${operator} | ${file}:${lineAt(trial)} | \`${flat(find)}\` → \`${flat(put)}\` | ${killedBy ?? ''}`;
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
