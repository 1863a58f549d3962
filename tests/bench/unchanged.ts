import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { GeneratedScan, Relation } from '../../sample-scans/generator/index.ts';
import { makePair, randomRecipe } from '../../sample-scans/generator/node.ts';
import { writePly } from '../../src/core/scan/index.ts';
import { dataFolder } from '../realData.ts';

/**
 * Whether a change of the code changed an answer: the same pairs through two builds of the command line.
 *
 * `npm run bench -- unchanged record CLI.js FOLDER` writes a record of each pair with that build;
 * `npm run bench -- unchanged compare BEFORE AFTER` prints what differs: findings, gates and marks must be equal, poses within
 * 1 µm and 0.001°.
 */
export function unchanged([what, ...rest]: string[]): void {
  if (what === 'record') recordAll(rest[0], rest[1]);
  else process.exitCode = compareAll(rest[0], rest[1]) === 0 ? 0 : 1;
}

interface Pair {
  readonly name: string;
  readonly reference: string;
  readonly subject: string;
  readonly options?: readonly string[];
}

function recordAll(cli: string, folder: string): void {
  mkdirSync(folder, { recursive: true });
  for (const { name, reference, subject, options = [] } of allPairs(join(folder, 'scans'))) {
    const out = join(folder, `${name}.json`);
    if (existsSync(out)) continue;
    const line = [cli, 'compare', reference, subject, '--json', out, ...options];
    execFileSync(process.execPath, line, { stdio: ['ignore', 'ignore', 'inherit'] });
    process.stderr.write(`${name}\n`);
  }
}

function allPairs(folder: string): Pair[] {
  return [...samplePairs(), ...outsidePairs(), ...generatedPairs(folder)];
}

function samplePairs(): Pair[] {
  const path = (file: string): string => join('sample-scans', file);
  const averholt = ['impression-good', 'impression-worn', 'impression-test', 'cast-of-worn', 'matrix-recast']
    .concat('second-matrix-impression')
    .map((other) => ['averholt-matrix', `averholt-${other}`]);
  const others = [
    ['averholt-impression-good', 'averholt-impression-worn'],
    ['averholt-impression-worn', 'averholt-cast-of-worn'],
    ['averholt-impression-good', 'averholt-matrix-recast'],
    ['averholt-impression-good', 'averholt-second-matrix-impression'],
  ];
  const named = [...averholt, ...others].map(([a, b]) =>
    pairOf(`sample-${a}-${b}`, path(`${a}.glb`), path(`${b}.glb`)),
  );
  const odric = pairOf('sample-odric', path('odric-matrix.glb'), path('odric-impression.ply'), [
    '--unit',
    'subject=mm',
  ]);
  return [...named, odric];
}

const pairOf = (name: string, reference: string, subject: string, options: string[] = []): Pair => ({
  name,
  reference,
  subject,
  options,
});

/** Pairs made by others; none where the folder is absent. */
function outsidePairs(): Pair[] {
  const data = dataFolder();
  if (!data) return [];
  const pairs = readdirSync(join(data, 'pairs')).map((name) =>
    pairOf(`outside-${name}`, join(data, 'pairs', name, 'reference.ply'), join(data, 'pairs', name, 'subject.ply'), [
      '--unit',
      'mm',
    ]),
  );
  const tool = (a: string, b: string): Pair =>
    pairOf(
      `tool-${a}-${b}`,
      ...([a, b].map((n) => join(data, 'same-tool', `fadul${n}_processed.x3p`)) as [string, string]),
    );
  return [...pairs, tool('1-1', '1-2'), tool('1-1', '2-1'), tool('1-2', '2-1')];
}

const relations: readonly Relation[] = [
  ...Array<Relation>(12).fill('same'),
  ...Array<Relation>(4).fill('handCopy'),
  ...Array<Relation>(2).fill('stockMotif'),
  ...Array<Relation>(2).fill('unrelated'),
];

function generatedPairs(folder: string): Pair[] {
  mkdirSync(folder, { recursive: true });
  return relations.map((relation, k) => {
    const seed = 91_000 + k;
    const pair = makePair(
      randomRecipe(seed, relation, {
        vertices: 16_000,
        coverage: [0.5, 1.15],
        warpMm: [0.02, 0.3],
        noiseMm: [0.005, 0.02],
      }),
    );
    const file = (role: 'reference' | 'subject'): string => join(folder, `${seed}-${role}.ply`);
    for (const role of ['reference', 'subject'] as const) writeScan(pair[role], file(role));
    const units = `reference=${pair.reference.unit},subject=${pair.subject.unit}`;
    return pairOf(`generated-${relation}-${seed}`, file('reference'), file('subject'), ['--unit', units]);
  });
}

function writeScan({ positions, triangles }: GeneratedScan, path: string): void {
  if (!existsSync(path)) writeFileSync(path, writePly(positions, triangles));
}

/** The number of pairs whose answer changed. */
function compareAll(before: string, after: string): number {
  const names = readdirSync(before).filter((name) => name.endsWith('.json'));
  let changed = 0;
  for (const name of names) {
    const [a, b] = [before, after].map((folder) => JSON.parse(readFileSync(join(folder, name), 'utf8')));
    const said = differencesOf(a, b);
    if (said.length > 0) changed++;
    for (const line of said) process.stdout.write(`${name}: ${line}\n`);
  }
  process.stdout.write(`${names.length} pairs, ${changed} changed\n`);
  return changed;
}

// biome-ignore lint/suspicious/noExplicitAny: records of two versions of the schema.
type AnyRecord = any;

function differencesOf(a: AnyRecord, b: AnyRecord): string[] {
  const said: string[] = [];
  const same = (what: string, pick: (record: AnyRecord) => unknown): void => {
    const [x, y] = [a, b].map((record) => JSON.stringify(pick(record)));
    if (x !== y) said.push(`${what}: ${x} → ${y}`);
  };
  same('finding', ({ judge }) => [judge.finding, judge.strength]);
  same('gates', ({ judge }) => judge.gates.map((g: AnyRecord) => [g.group, near(g.value), near(g.limit), g.passed]));
  same('state', ({ judge }) => [judge.state.reading, judge.state.marks]);
  same('marks', ({ damage }) =>
    damage.map((m: AnyRecord) => [m.id, m.carriedBy, m.shape, m.onSubject, near(m.at.deg), near(m.areaMm2)]),
  );
  same('wear', ({ wear }) => wear.zones.map((z: AnyRecord) => [z.zone, z.state, near(z.heightKept)]));
  const moved = poseDifference(a.fit.subjectToReference, b.fit.subjectToReference);
  if (moved) said.push(moved);
  return said;
}

const near = (value: number | null): number | null => value && Number(value.toPrecision(3));

/** How far two similarities lie apart, in words; null within 1 µm at the origin and 0.001°. */
function poseDifference(a: number[] | null, b: number[] | null): string | null {
  if (!a || !b) return a === b ? null : 'a fit is found by one only';
  const shift = Math.hypot(a[3] - b[3], a[7] - b[7], a[11] - b[11]);
  const turn = Math.max(...[0, 1, 2, 4, 5, 6, 8, 9, 10].map((i) => Math.abs(a[i] - b[i])));
  const within = shift <= 0.001 && turn <= (0.001 * Math.PI) / 180;
  return within ? null : `pose moved by ${(1000 * shift).toFixed(2)} µm, ${((turn * 180) / Math.PI).toFixed(5)}°`;
}
