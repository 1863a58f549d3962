import { writeFileSync } from 'node:fs';
import type { Band, BandFace } from '../../../src/core/design/index.ts';
import { ringsOffered } from '../../../src/core/design/legend/findBands.ts';
import { isTrueRing, letteredFaces } from '../bands.ts';
import { bandError, isFound } from '../bandTruth.ts';
import { wornSeal } from '../wornSeals.ts';
import { type RingRow, ringHead, ringLine } from './rows.ts';

/** Seeds and recipes that the choice of a ring is learned from: of both generators about as many faces. */
const learnedFrom = { rubbed: [70_000, 60], broken: [70_500, 32], recipes: [33_000, 50] } as const;
/** Of the rings of one face that are right, and of those that are not, so many are kept: the best by their lines and gaps. */
const kept = { right: 5, wrong: 12 };

/** `npm run bench -- band-rows`: the rings that faces of both generators offer, into tests/bench/bandRows/rows.csv. */
export async function bandRows(): Promise<void> {
  const lines: string[] = [ringHead];
  const add = (name: string, face: BandFace, isRight: (band: Band) => boolean): void => {
    lines.push(...fewOf(ringRowsOf(name, face, isRight)).map(ringLine));
    process.stderr.write(`${name}\n`);
  };
  for (const [from, count] of [learnedFrom.rubbed, learnedFrom.broken])
    for (let seed = from; seed < from + count; seed++) {
      const seal = await wornSeal(seed, { coverage: from === learnedFrom.broken[0] && seed % 2 ? 0.6 : 1 });
      add(`first ${seed}`, seal.prepared.face, (band) => isFound(bandError(seal, band), seal));
    }
  const [from, count] = learnedFrom.recipes;
  for (let index = from; index < from + count; index++)
    for (const [k, { face, letters }] of (await letteredFaces(index)).entries())
      add(`second ${index} ${k}`, face, (band) => isTrueRing(letters, band));
  writeFileSync('tests/bench/bandRows/rows.csv', `${lines.join('\n')}\n`);
}

/** All rings of a face, the best by their lines and gaps first. */
export const ringRowsOf = (name: string, face: BandFace, isRight: (band: Band) => boolean): RingRow[] =>
  ringsOffered(face)
    .sort((p, q) => q.score - p.score)
    .map(({ band, signs }) => ({ face: name, right: isRight(band), signs }));

export function fewOf(rows: readonly RingRow[]): RingRow[] {
  const some = (right: boolean, most: number): RingRow[] => rows.filter((row) => row.right === right).slice(0, most);
  return [...some(true, kept.right), ...some(false, kept.wrong)];
}
