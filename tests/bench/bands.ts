import { appendFileSync } from 'node:fs';
import { type Band, findLegendBands, parallelAt, readingX } from '../../src/core/design/index.ts';
import type { Face } from '../../src/core/face/index.ts';
import { apply } from '../../src/core/geometry/index.ts';
import { type PreparedScan, prepareScan } from '../../src/core/pipeline.ts';
import { middleDepth } from '../../src/core/read/index.ts';
import { type Kind, ScanError } from '../../src/core/scan/index.ts';
import { conditionCode, type MadeScan, makePair, recipeAt, type TrueLetter } from '../populations/index.ts';
import { type Row, share, tableOf } from './table.ts';

/** A letter of the scan's face where it lies, impression's sense, mm. */
interface StandingLetter {
  readonly ring: number;
  readonly heightMm: number;
  readonly x: number;
  readonly y: number;
}

interface Outcome {
  readonly words: string;
  readonly found: boolean;
  /** Letters are high enough to be read at all: so many cells of the relief. */
  readonly cells: number;
  readonly broken: boolean;
}

/** From so many cells a letter is made out by eye. */
const readableCells = 8;

/**
 * `npm run bench -- bands [FROM] [COUNT]`: legend bands of the faces of recipes FROM to FROM + COUNT − 1 of the second
 * population, whole and broken, with and without border lines, against where their letters truly lie.
 */
export async function bands(from: number, count: number): Promise<void> {
  const list: Outcome[] = [];
  for (let index = from; index < from + count; index++)
    for (const outcome of await outcomesOf(index)) {
      list.push(outcome);
      process.stderr.write(`${outcome.words}\n`);
    }
  const readable = list.filter(({ cells }) => cells >= readableCells);
  const row = (what: string, some: readonly Outcome[]): Row => ({
    what,
    floor: '–',
    measured: share(some.filter(({ found }) => found).length, some.length),
  });
  const text = [
    `## ${new Date().toISOString().slice(0, 16).replace('T', ' ')}, legend bands, second population, recipes ${from} to ${from + count - 1}`,
    '',
    tableOf([
      row('bands found, all faces with at least six letters', list),
      row(`… letters at least ${readableCells} cells high`, readable),
      row(
        '… and nothing broken off',
        readable.filter(({ broken }) => !broken),
      ),
      row(
        '… broken',
        readable.filter(({ broken }) => broken),
      ),
    ]),
    '',
  ].join('\n');
  process.stdout.write(`${text}\n`);
  appendFileSync('tests/bench/results.md', `\n${text}`);
}

/** A face of the second population and where its letters truly stand. */
export interface LetteredFace {
  readonly face: Face;
  readonly letters: readonly StandingLetter[];
  readonly words: string;
  readonly broken: boolean;
}

/** The faces of a recipe that keep at least six letters. */
export async function letteredFaces(index: number): Promise<LetteredFace[]> {
  const pair = makePair(index, { ...recipeAt(index), unit: 'mm' });
  const list: LetteredFace[] = [];
  for (const role of ['reference', 'subject'] as const) {
    const kind = pair.truth.kinds[role];
    const bytes = pair[role].bytes;
    const prepared = await preparedOr(bytes, kind);
    if (!prepared) continue;
    const all = role === 'reference' ? pair.truth.referenceLetters : pair.truth.subjectLetters;
    const letters = standing(prepared, pair[role], all);
    if (letters.length < 6) continue;
    const { face } = prepared;
    const cells = letters[0].heightMm / face.relief.pitch;
    const words = `${index} ${role}: ${kind}, ${pair.truth.shape}, border ${pair.truth.border}, ${letters.length} of ${all.length} letters, ${cells.toFixed(0)} cells high`;
    list.push({ face, letters, words, broken: letters.length < 0.97 * all.length });
  }
  return list;
}

async function outcomesOf(index: number): Promise<Outcome[]> {
  return (await letteredFaces(index)).map(({ face, letters, words, broken }) => {
    const found = foundAmong(letters, findLegendBands(face));
    const cells = letters[0].heightMm / face.relief.pitch;
    return { words: `${found ? 'found ' : 'missed'} ${words}`, found, cells, broken };
  });
}

/** Null where no face was found: this bench asks for legends only. */
async function preparedOr(bytes: Uint8Array, kind: Kind): Promise<PreparedScan | null> {
  try {
    return await prepareScan({ name: 'face.ply', bytes, unit: 'mm', kind, sha256: () => '' });
  } catch (error) {
    if (error instanceof ScanError && error.code === 'noFace') return null;
    throw error;
  }
}

/** The clearest band is a true ring. */
function foundAmong(letters: readonly StandingLetter[], list: readonly Band[]): boolean {
  if (list.length === 0) return false;
  return isTrueRing(
    letters,
    list.reduce((p, q) => (q.confidence > p.confidence ? q : p)),
  );
}

/** Its middle lies within a quarter of the letters' height of 85 of 100 letters of a ring, and it is as high as they. */
export function isTrueRing(letters: readonly StandingLetter[], band: Band): boolean {
  const middle = parallelAt(band, middleDepth(band));
  return [...new Set(letters.map(({ ring }) => ring))].some((ring) => {
    const some = letters.filter((letter) => letter.ring === ring);
    const ratio = (band.lettersInnerMm - band.lettersOuterMm) / (cutHigher * some[0].heightMm);
    const near = some.filter(({ x, y, heightMm }) => distanceTo(middle, x, y) <= 0.25 * heightMm);
    return some.length > 2 && near.length >= 0.85 * some.length && ratio > 0.7 && ratio < 1.35;
  });
}

/** Strokes have a width: a letter is cut so much higher than its skeleton. */
const cutHigher = 1.14;

function distanceTo(ring: Float64Array, x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < ring.length; i += 2) least = Math.min(least, Math.hypot(ring[i] - x, ring[i + 1] - y));
  return least;
}

/** Letters that are there and were scanned, by the vertices next to each. */
function standing({ face, scan }: PreparedScan, made: MadeScan, letters: readonly TrueLetter[]): StandingLetter[] {
  const { designPlace, conditionPerVertex } = made;
  return letters.flatMap((letter) => {
    const near: { readonly k: number; readonly d: number }[] = [];
    for (let k = 0; k < conditionPerVertex.length; k++) {
      if (conditionPerVertex[k] === conditionCode.body) continue;
      const d = Math.hypot(designPlace[2 * k] - letter.x, designPlace[2 * k + 1] - letter.y);
      if (d < 0.5 * letter.heightMm + 0.2) near.push({ k, d });
    }
    near.sort((p, q) => p.d - q.d);
    const lost = near.slice(0, 20).filter(({ k }) => conditionPerVertex[k] === conditionCode.lost).length;
    if (near.length < 4 || near[0].d > 0.6 || lost > 8) return [];
    return [
      { ring: letter.ring, heightMm: letter.heightMm, ...placeAmong(face, scan.mesh.offset, made, near, letter) },
    ];
  });
}

/** The letter's place on the face found: the mean of the vertices round it, less their mean way from it on the design, turned alike. */
function placeAmong(
  face: Face,
  offset: ArrayLike<number>,
  { truePositions, designPlace }: MadeScan,
  near: readonly { readonly k: number }[],
  letter: TrueLetter,
): { x: number; y: number } {
  const points = near.slice(0, 30).map(({ k }) => {
    const [x, y, z] = [0, 1, 2].map((axis) => truePositions[3 * k + axis] - offset[axis]);
    const [u, v] = apply(face.faceFromScan, [x, y, z]);
    return [designPlace[2 * k] - letter.x, designPlace[2 * k + 1] - letter.y, readingX(face.sense, u), v];
  });
  const [a, b, u, v] = [0, 1, 2, 3].map((i) => points.reduce((sum, p) => sum + p[i], 0) / points.length);
  let [cos, sin] = [0, 0];
  for (const [p, q, r, s] of points) {
    cos += (p - a) * (r - u) + (q - b) * (s - v);
    sin += (p - a) * (s - v) - (q - b) * (r - u);
  }
  const length = Math.hypot(cos, sin) || 1;
  return { x: u - (cos * a - sin * b) / length, y: v - (sin * a + cos * b) / length };
}
