import { readFileSync } from 'node:fs';
import { type Relation, recipeAt } from '../../populations/index.ts';

const sameMatrix: ReadonlySet<Relation> = new Set(['same', 'state', 'cast', 'recast']);

/** A pair that was scored once (tests/bench/rows): its score, null where no fit was found, and what was said of it. */
export interface ScoredOnce {
  readonly relation: Relation | 'breech';
  readonly same: boolean;
  readonly displacementUm: number | null;
  readonly imageLeft: number;
  readonly score: number | null;
  readonly finding: string;
}

/** Sets of the second generator that were scored once. */
const secondSets = ['second-2640-2738', 'second-3300-3365', 'second-5016-5081', 'second-5115-5147'] as const;

/** From the repository's top, as the bench and the tests are run. */
function rowsOf(name: string): Record<string, string>[] {
  const [head, ...lines] = readFileSync(`tests/bench/rows/${name}.csv`, 'utf8').trim().split('\n');
  const names = head.split(',');
  return lines.map((line) => Object.fromEntries(line.split(',').map((value, k) => [names[k], value])));
}

const scoreOf = (text: string): number | null => (text === '' ? null : Number(text));

/** All pairs that were scored once; recut legends left out, whose matrix is neither the same nor another. */
export function scoredOnce(): ScoredOnce[] {
  const second = secondSets.flatMap((name) =>
    rowsOf(name).map(({ seed, recipe, score, finding }): ScoredOnce => {
      const { relation, displacementUm = null, imageLeft } = recipeAt(Number(seed ?? recipe));
      return { relation, same: sameMatrix.has(relation), displacementUm, imageLeft, score: scoreOf(score), finding };
    }),
  );
  const breech = rowsOf('breech').map(({ slideA, slideB, score, finding }): ScoredOnce => {
    const same = slideA === slideB;
    return { relation: 'breech', same, displacementUm: null, imageLeft: 1, score: scoreOf(score), finding };
  });
  return [...second.filter(({ relation }) => relation !== 'legendRecut'), ...breech];
}

/** Copies by hand that are off by less, µm, are beyond what the tool parts: they are told apart (docs/collection.md). */
export const partedFromUm = 60;

/** Scores of all pairs of seals of different matrices that it should part; breech faces, of which none reaches anything, would flatter the rate. */
export const differentScores = (): (number | null)[] =>
  scoredOnce()
    .filter(({ same, relation }) => !same && relation !== 'breech')
    .filter(({ displacementUm }) => (displacementUm ?? partedFromUm) >= partedFromUm)
    .map(({ score }) => score);

/** Scores across copies by hand that are off by 60 to 120 µm, by family: development families of docs/collection.md, every pair verified; no fit is below all. */
export function copyScores(): number[][] {
  const families = new Map<string, number[]>();
  for (const { seed, score } of rowsOf('copies-60')) {
    const own = families.get(seed) ?? [];
    own.push(scoreOf(score) ?? Number.NEGATIVE_INFINITY);
    families.set(seed, own);
  }
  return [...families.values()];
}
