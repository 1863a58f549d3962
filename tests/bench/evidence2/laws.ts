import { appendFileSync } from 'node:fs';
import { longSide } from '../../../src/core/face/index.ts';
import { type HeightGrid, seededRandom } from '../../../src/core/geometry/index.ts';
import {
  judgeMeasured,
  measureWeighed,
  type PreparedScan,
  prepareScan,
  weighPrepared,
} from '../../../src/core/pipeline.ts';
import { ScanError, writePly } from '../../../src/core/scan/index.ts';
import { makePair, recipeAt } from '../../populations/index.ts';
import { changed, changes, halfOf, type Struck } from './accidents.ts';
import { meshOf, rms } from './casts.ts';
import { rowsFile } from './rowsFile.ts';

const ofOneMatrix: readonly string[] = ['same', 'cast', 'state', 'recast'];

/**
 * `npm run bench -- laws FROM COUNT FILE`: the first COUNT recipes of the second generator from FROM on that are of one matrix and keep 0.6 of the image.
 * Of each: the finding as the scans are, exchanged, with the subject's surface scanned a second time, and with one thing more on the subject's face
 * (`accidents.ts`); of every second one two halves of the subject against each other. A line each, appended to FILE; a recipe that FILE has is not
 * scored again. `grids`: only as they are, exchanged, and the second scan.
 */
export async function laws(
  from: number,
  count: number,
  file: string,
  say: (line: string) => void,
  what: 'all' | 'grids' = 'all',
): Promise<void> {
  const { commit, done } = rowsFile(file, ['seed', 'relation', 'left', 'change', 'finding', 'score', 'commit']);
  for (let seed = from, pairs = 0; pairs < count; seed++) {
    const recipe = recipeAt(seed);
    if (!ofOneMatrix.includes(recipe.relation) || recipe.imageLeft < 0.62) continue;
    const made = makePair(seed, recipe);
    if (made.truth.imageLeft < 0.6) continue;
    pairs++;
    if (done.has(String(seed))) continue;
    const lines = (await findingsOf(seed, made, what)).map(([change, answer]) =>
      [seed, recipe.relation, made.truth.imageLeft.toFixed(2), change, answer, commit].join(','),
    );
    appendFileSync(file, `${lines.join('\n')}\n`);
    for (const line of lines) say(line);
  }
}

async function findingsOf(
  seed: number,
  { reference, subject, truth }: ReturnType<typeof makePair>,
  what: 'all' | 'grids',
): Promise<[string, string][]> {
  const unit = truth.unit === 'um' ? undefined : truth.unit;
  const scan = (bytes: Uint8Array, name: string, to = unit) => prepareScan({ name, bytes, unit: to, sha256: () => '' });
  const [a, b] = [await scan(reference.bytes, 'reference.ply'), await scan(subject.bytes, 'subject.ply')];
  const anew = (relief: HeightGrid, name: string): Promise<PreparedScan> => {
    const { positions, triangles } = meshOf(relief);
    return scan(writePly(positions, triangles), name, 'mm');
  };
  const face: Struck = {
    sizeMm: longSide(b.face),
    depthMm: rms(b.face.detail),
    up: b.face.sense === 'relief' ? 1 : -1,
  };
  const out: [string, string][] = [
    ['as it is', answerOf(a, b)],
    ['exchanged', answerOf(b, a)],
  ];
  const second = makePair(seed, recipeAt(seed), 1).subject.bytes;
  out.push(['scanned anew', await orNoFace(async () => answerOf(a, await scan(second, 'second.ply')))]);
  if (what === 'grids') return out;
  for (const [k, change] of changes.entries()) {
    const relief = changed(b.face.relief, change, face, seededRandom(100 * seed + k));
    out.push([change, await orNoFace(async () => answerOf(a, await anew(relief, `${change}.ply`)))]);
  }
  if (seed % 2 === 0) {
    const [left, right] = ([1, -1] as const).map((side) => halfOf(b.face.relief, side, face));
    const apart = async () => answerOf(await anew(left, 'left.ply'), await anew(right, 'right.ply'));
    out.push(['disjoint', await orNoFace(apart)]);
  }
  return out;
}

/** Where no face is found nothing is answered. */
async function orNoFace(answer: () => Promise<string>): Promise<string> {
  try {
    return await answer();
  } catch (error) {
    if (error instanceof ScanError) return `${error.code},`;
    throw error;
  }
}

/** Finding and score, the surfaces looked at only where the finding hangs on them. */
function answerOf(a: PreparedScan, b: PreparedScan): string {
  const pair = weighPrepared(a, b);
  const { finding, score } = pair.weighed ?? judgeMeasured(measureWeighed(pair)).judgement;
  return `${finding},${score?.toFixed(2) ?? ''}`;
}
