import {
  copiesFalseSupport,
  errorDefaults,
  type Grouping,
  groupObjects,
  type Known,
  type Link,
} from '../../../src/core/collection/index.ts';
import { type Random, seededRandom } from '../../../src/core/geometry/index.ts';
import { type Row, share } from '../table.ts';
import { partedFromUm, type ScoredOnce, scoredOnce } from './heldOutScores.ts';
import type { IndexedObject } from './indexed.ts';
import type { Searched } from './recall.ts';

/**
 * Groups from pairs whose findings are drawn from the pairs that were scored once, since verifying all pairs takes days. Compared are the pairs
 * that the search calls likely. `atTheBound`: pairs of different matrices are drawn from the modelled bound instead, under which false
 * support is as frequent as the grouping allows for.
 */
export function groupRows(
  collections: readonly (readonly IndexedObject[])[],
  searched: readonly Searched[],
  atTheBound: boolean,
): Row[] {
  const rows = scoredOnce();
  const tally = { pairs: 0, right: 0, sameWhole: 0, sameWholeFound: 0, falseMerges: 0, expected: 0, compared: 0 };
  for (const [k, objects] of collections.entries()) {
    const random = seededRandom(objects[0].seed);
    const { links, known } = drawnLinks(objects, searched[k], rows, random, atTheBound);
    const own = objects.filter(({ decoy }) => !decoy);
    const grouped = own.map(({ id, imageLeft }) => ({ id, imageLeft }));
    // Drawn findings have no places; that copies show there is measured on verified pairs (copies.ts).
    const options = { unshown: errorDefaults.unshown };
    count(groupObjects(grouped, links, known, [], links.length, options), own, tally);
    tally.compared += links.length;
  }
  const n = collections.length;
  const title = atTheBound ? 'different pairs drawn at the bound' : 'findings drawn from the rows';
  return [
    {
      what: `groups, ${title}: pairs in groups that are of one matrix`,
      floor: 'at least 99.9 %',
      measured: share(tally.right, tally.pairs),
    },
    {
      what: `pairs of one matrix, both with 60 % and more, in one group (${title})`,
      floor: 'at least 95 %',
      measured: share(tally.sameWholeFound, tally.sameWhole),
    },
    {
      what: `false merges a collection (${title}, ${(tally.compared / n).toFixed(0)} pairs compared)`,
      floor: `at most the printed ${(tally.expected / n).toFixed(3)}`,
      measured: `${(tally.falseMerges / n).toFixed(3)}, ${tally.falseMerges} in ${n}`,
    },
  ];
}

type Tally = Record<'pairs' | 'right' | 'sameWhole' | 'sameWholeFound' | 'falseMerges' | 'expected', number>;

function count(grouping: Grouping, objects: readonly IndexedObject[], tally: Tally): void {
  const matrixOf = new Map(objects.map(({ id, matrix }) => [id, matrix]));
  const groupOf = new Map(grouping.groups.flatMap(({ id, members }) => members.map((member) => [member, id] as const)));
  for (const { members } of grouping.groups) {
    tally.falseMerges += new Set(members.map((id) => matrixOf.get(id))).size - 1;
    members.forEach((a, i) => {
      for (const b of members.slice(i + 1)) {
        tally.pairs++;
        if (matrixOf.get(a) === matrixOf.get(b)) tally.right++;
      }
    });
  }
  tally.expected += grouping.expectedFalseMerges;
  const whole = objects.filter(({ imageLeft }) => imageLeft >= 0.6);
  whole.forEach((a, i) => {
    for (const b of whole.slice(i + 1)) {
      if (a.matrix !== b.matrix) continue;
      tally.sameWhole++;
      if (groupOf.has(a.id) && groupOf.get(a.id) === groupOf.get(b.id)) tally.sameWholeFound++;
    }
  });
}

function drawnLinks(
  objects: readonly IndexedObject[],
  { candidates }: Searched,
  rows: readonly ScoredOnce[],
  random: Random,
  atTheBound: boolean,
) {
  const pairs = new Map<string, readonly [number, number]>();
  for (const [k, found] of candidates.entries())
    for (const { index, likely } of found) {
      if (!likely || objects[k].decoy || objects[index].decoy) continue;
      const [i, j] = [Math.min(k, index), Math.max(k, index)];
      pairs.set(`${i} ${j}`, [i, j]);
    }
  const links = [...pairs.values()].map(([i, j]): Link => {
    const [a, b] = [objects[i], objects[j]];
    const left = Math.min(a.imageLeft, b.imageLeft);
    const { finding, score } =
      a.matrix === b.matrix ? drawSame(rows, left, random) : drawDifferent(rows, a, b, random, atTheBound);
    const parent = a.castOf === b.id || b.castOf === a.id;
    const descent = parent && random.next() < 0.5 ? 'oneDescent' : 'cannotJudge';
    return {
      a: a.id,
      b: b.id,
      finding,
      question: 'oneMatrix',
      score,
      strength: 'weak',
      descent,
      imageLeft: [a.imageLeft, b.imageLeft],
    };
  });
  // The manifest states every other cast.
  const known = objects.flatMap(({ id, castOf }, k): Known[] => {
    return castOf && k % 2 ? [{ a: id, b: castOf, relation: 'castOf' }] : [];
  });
  return { links, known };
}

type Drawn = Pick<Link, 'finding' | 'score'>;
const drawn = ({ finding, score }: ScoredOnce): Drawn => ({ finding: finding as Link['finding'], score });

function drawSame(rows: readonly ScoredOnce[], left: number, random: Random): Drawn {
  const [low, high] = left >= 0.6 ? [0.6, 1.1] : left >= 0.4 ? [0.4, 0.6] : [0, 0.4];
  return drawn(
    random.pick(
      rows.filter((row) => row.same && row.relation !== 'breech' && row.imageLeft >= low && row.imageLeft < high),
    ),
  );
}

/** Rows of copies that are beyond what the tool parts say nothing of those that are not. */
const sameSide = (um: number, row: number | null): boolean => um >= partedFromUm === (row ?? 0) >= partedFromUm;

function drawDifferent(
  rows: readonly ScoredOnce[],
  a: IndexedObject,
  b: IndexedObject,
  random: Random,
  atTheBound: boolean,
): Drawn {
  if (atTheBound) {
    const { rate, perScore } = copiesFalseSupport;
    const score = random.next() < rate ? -perScore * Math.log(1 - random.next()) : -1;
    return { finding: score >= 2 ? 'supported' : 'undecided', score };
  }
  const sisters = a.sisterOf === b.matrix || b.sisterOf === a.matrix;
  const um = a.displacementUm ?? b.displacementUm ?? 0;
  const like = ({ same, relation, displacementUm }: ScoredOnce): boolean =>
    !same &&
    (sisters
      ? relation === 'handCopy' && Math.abs(Math.log((displacementUm ?? 1) / um)) < 0.7 && sameSide(um, displacementUm)
      : relation !== 'handCopy');
  return drawn(random.pick(rows.filter(like)));
}
