import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { deserialize, serialize } from 'node:v8';
import type { Recipe, Relation } from '../../../sample-scans/generator/index.ts';
import { makePair, randomRecipe } from '../../../sample-scans/generator/node.ts';
import type { Face } from '../../../src/core/face/index.ts';
import type { Fit, Searched } from '../../../src/core/fit/index.ts';
import { searchFaces } from '../../../src/core/fit/index.ts';
import { fitBestFaces, type PreparedScan, prepareScan } from '../../../src/core/pipeline.ts';
import { prepared } from '../pairs.ts';
import { accidents, castOf } from './casts.ts';

/** A pair taken as far as the fit, kept on disk while the evidence is worked on. */
export interface DevPair {
  readonly name: string;
  readonly kind: string;
  readonly same: boolean;
  readonly info: Record<string, unknown>;
  readonly reference: Face;
  readonly subject: Face;
  readonly fit: Fit;
  readonly searched: Searched;
}

export const folder = process.env.KEPT_PAIRS ?? 'dist/pairs';

export function keep(
  name: string,
  kind: string,
  same: boolean,
  info: Record<string, unknown>,
  a: PreparedScan,
  b: PreparedScan,
) {
  const { fit, reference, subject, cut } = fitBestFaces(a, b);
  const searched = searchFaces(reference.face, subject.face);
  const pair: DevPair = {
    name,
    kind,
    same,
    info,
    reference: cut.reference.face,
    subject: cut.subject.face,
    fit,
    searched,
  };
  mkdirSync(folder, { recursive: true });
  writeFileSync(`${folder}/${name}.v8`, serialize(pair));
  console.log(
    name,
    kind,
    'found',
    fit.found,
    fit.significance.toFixed(1),
    fit.score.toFixed(2),
    'over',
    fit.turnedOver,
  );
}

export const load = (name: string): DevPair => deserialize(readFileSync(`${folder}/${name}.v8`)) as DevPair;
export const names = (): string[] =>
  readdirSync(folder)
    .filter((f) => f.endsWith('.v8'))
    .map((f) => f.slice(0, -3));

const data = process.env.ECTYPE_DATA ?? '../shared/data';
const read = (path: string, more = {}) =>
  prepareScan({
    name: path.split('/').pop() as string,
    bytes: new Uint8Array(readFileSync(`${data}/${path}`)),
    sha256: () => '',
    ...more,
  });

async function external() {
  for (const dir of readdirSync(`${data}/pairs`)) {
    const truth = JSON.parse(readFileSync(`${data}/pairs/${dir}/truth.json`, 'utf8'));
    const [a, b] = [
      await read(`pairs/${dir}/reference.ply`, { unit: 'mm' }),
      await read(`pairs/${dir}/subject.ply`, { unit: 'mm' }),
    ];
    keep(`x-${dir}`, truth.case, truth.sameMatrix, truth, a, b);
  }
}
async function tool() {
  const s = [];
  for (const n of ['1-1', '1-2', '2-1']) s.push(await read(`same-tool/fadul${n}.x3p`));
  keep('t-11-12', 'tool', true, {}, s[0], s[1]);
  keep('t-11-21', 'otherTool', false, {}, s[0], s[2]);
  keep('t-12-21', 'otherTool', false, {}, s[1], s[2]);
}
async function coins() {
  const dime = await read('coins/dime.tif', { unit: 'mm', pixelSize: 0.0631887, heightStep: 1 });
  const euro = await read('coins/euro.tif', { unit: 'mm', pixelSize: 0.03836, heightStep: 1 });
  keep('c-dime-euro', 'unrelated', false, {}, dime, euro);
  for (const [name, scan] of [
    ['dime', dime],
    ['euro', euro],
  ] as const)
    for (const accident of accidents)
      for (const seed of [1, 2])
        keep(
          `c-${name}-${accident}-${seed}`,
          `cast-${accident}`,
          true,
          { accident },
          scan,
          (await castOf(scan, accident, seed)).scan,
        );
}
async function generated(from: number, count: number) {
  const kinds: Relation[] = [
    'same',
    'handCopy',
    'sisterImpressions',
    'handCopy',
    'castOfImpression',
    'stockMotif',
    'laterState',
    'handCopy',
    'same',
    'earlierState',
    'handCopy',
    'stockMotif',
  ];
  let before: PreparedScan | null = null;
  for (let i = from; i < from + count; i++) {
    const relation = kinds[i % kinds.length];
    const recipe: Recipe = randomRecipe(700_000 + i, relation, {
      vertices: [40_000, 25_000, 60_000][i % 3],
      coverage: i % 4 === 3 ? [0.5, 0.7] : [0.6, 1.3],
      wear: [0, 0.8],
      warpMm: [0.02, 0.3],
      noiseMm: [0.005, 0.02],
      jitterMm: [0.04, 0.3],
    });
    const pair = makePair(recipe);
    const a = await prepared(pair.reference, 'reference');
    const b = await prepared(pair.subject, 'subject');
    const isSame = relation !== 'handCopy' && relation !== 'stockMotif';
    keep(`g-${i}-${relation}`, relation, isSame, { ...recipe }, a, b);
    if (before && i % 2 === 0) keep(`g-${i}-unrelated`, 'unrelated', false, { ...recipe }, a, before);
    before = b;
  }
}
if (process.argv[1].endsWith('dev.mjs')) {
  const [what, x, y] = process.argv.slice(2);
  if (what === 'external') await external();
  if (what === 'tool') await tool();
  if (what === 'coins') await coins();
  if (what === 'generated') await generated(Number(x), Number(y));
}
void existsSync;
