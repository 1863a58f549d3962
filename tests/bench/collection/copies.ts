import { appendFileSync } from 'node:fs';
import { type Grouping, groupObjects, type Link } from '../../../src/core/collection/index.ts';
import { judgeMeasured, measureWeighed, type PreparedScan, weighPrepared } from '../../../src/core/pipeline.ts';
import { packFace, unpackFace } from '../../../src/store/keptFace.ts';
import { linkOf, weighedLink } from '../../../src/store/verifiedPair.ts';
import { type CollectedObject, makeCollection, plainPlan } from '../../populations/collection.ts';
import { upperBound } from '../rows/rates.ts';
import { type Row, share, tableOf } from '../table.ts';

/** One matrix with four objects of 75 % and more of the image, one copied from it by hand with two or four, a cast of one of the first. */
const familyPlan = {
  ...plainPlan,
  ...{ matrices: 1, objectsEach: 4, sisters: 1, sisterObjects: 4, casts: 1, singletons: 0, mirrored: 0 },
};

/** Copies as careful as these, µm. */
const copiedUm = [30, 120] as const;

interface Family {
  readonly objects: readonly CollectedObject[];
  readonly links: readonly Link[];
}

/**
 * Families of a matrix and a careful copy, every pair of a family verified on kept faces, all grouped as one collection: with all
 * objects of the copy, with two and with one of them; by single pairs alone and by the places of all pairs together.
 */
export function collectionCopies(count: number, from: number): void {
  const families = Array.from({ length: count }, (_, k) => {
    const family = verified(makeCollection(from + k, { ...familyPlan, sisterUm: copiedUm }));
    process.stderr.write(`${familyLine(from + k, family)}\n`);
    return family;
  });
  const rows = [4, 2, 1].flatMap((kept) => {
    const fewer = families.map((family) => withFewer(family, kept));
    return [false, true].flatMap((together) => rowsOf(fewer, kept, together));
  });
  const text = `## ${new Date().toISOString().slice(0, 16).replace('T', ' ')}, ${count} families from seed ${from}\n\n${tableOf(rows)}\n`;
  process.stdout.write(`${text}\n`);
  appendFileSync('tests/bench/results.md', `\n${text}`);
}

function verified(objects: readonly CollectedObject[]): Family {
  const faces = objects.map(keptFaceOf);
  const links = objects.flatMap((a, i) =>
    objects.slice(i + 1).map((b, k): Link => {
      const made = linkBetween(faces[i], faces[i + 1 + k]);
      const { image_left_a, image_left_b, places, score, descent } = made;
      const { finding, question, strength } = made as unknown as Link;
      const imageLeft = image_left_a === null || image_left_b === null ? null : ([image_left_a, image_left_b] as const);
      const link = { finding, question, strength, score, descent, imageLeft, ...(places !== null && { places }) };
      return { a: a.id, b: b.id, ...link };
    }),
  );
  return { objects, links };
}

/** As a collection works it out: the surfaces of a supported pair alone are read. */
function linkBetween(a: PreparedScan, b: PreparedScan): ReturnType<typeof linkOf> {
  const pair = weighPrepared(a, b);
  if (pair.weighed && pair.weighed.finding !== 'supported') return weighedLink({ ...pair, ...pair.weighed });
  return linkOf(judgeMeasured(measureWeighed(pair)));
}

/** As a collection keeps it. */
function keptFaceOf({ id, kind, face }: CollectedObject): PreparedScan {
  const scan = { name: id, sha256: id, format: 'ply', unit: 'mm', unitFrom: 'stated' };
  const stated = { kindFrom: 'stated', scaleUncertaintyPercent: 0.3, scaleUncertaintyFrom: 'assumed' };
  return unpackFace(packFace({ scan, face: face(), kind, ...stated } as unknown as PreparedScan));
}

const isCopied = ({ sisterOf }: CollectedObject): boolean => sisterOf !== null;

function familyLine(seed: number, { objects, links }: Family): string {
  const matrixOf = new Map(objects.map(({ id, matrix }) => [id, matrix]));
  const across = links.filter(({ a, b }) => matrixOf.get(a) !== matrixOf.get(b));
  const supported = across.filter(({ finding }) => finding === 'supported').map(({ score }) => score?.toFixed(1));
  const um = objects.find(isCopied)?.displacementUm?.toFixed(0);
  return `${seed}: copied by ${um} µm, ${objects[0].sizeMm.toFixed(0)} mm, ${across.length} pairs across, supported ${supported.join(' ') || 'none'}`;
}

function withFewer({ objects, links }: Family, most: number): Family {
  let copied = 0;
  const kept = objects.filter((object) => !isCopied(object) || copied++ < most);
  const ids = new Set(kept.map(({ id }) => id));
  return { objects: kept, links: links.filter(({ a, b }) => ids.has(a) && ids.has(b)) };
}

function rowsOf(families: readonly Family[], kept: number, together: boolean): Row[] {
  const objects = families.flatMap((family) => family.objects);
  const links = families
    .flatMap((family) => family.links)
    .map(({ places, ...link }) => (together ? { ...link, places } : link));
  const grouping = groupObjects(objects, links, [], [], links.length);
  const { merged, right, pairs, same, sameFound } = counted(grouping, objects);
  const close = (um: number | null): boolean => (um ?? 60) < 60;
  const of = (test: (um: number | null) => boolean): number =>
    families.filter(({ objects: own }) => test(own.find(isCopied)?.displacementUm ?? null)).length;
  const far = of((um) => !close(um));
  const farMerged = merged.filter((um) => !close(um)).length;
  const title = `${kept} of the copy, ${together ? 'all pairs together' : 'single pairs alone'}`;
  const row = (what: string, floor: string, measured: string): Row => ({ what: `${title}: ${what}`, floor, measured });
  const bound = (k: number, n: number): string => `${share(k, n)}, at most ${(100 * upperBound(k, n)).toFixed(0)} %`;
  const expected = grouping.expectedFalseMerges.toFixed(3);
  return [
    row('merged with a copy off by 60 µm and more', `printed ${expected} in all`, bound(farMerged, far)),
    row('merged with a copy off by less', '', bound(merged.length - farMerged, families.length - far)),
    row('pairs in groups of one matrix', 'at least 99.9 %', share(right, pairs)),
    row('pairs of one matrix in one group', 'at least 95 %', share(sameFound, same)),
    row('kept apart falsely', '', `${falselyParted(grouping, objects)}`),
  ];
}

function counted({ groups }: Grouping, objects: readonly CollectedObject[]) {
  const known = new Map(objects.map((object) => [object.id, object]));
  const matrixOf = (id: string): string | undefined => known.get(id)?.matrix;
  const groupOf = new Map(groups.flatMap(({ id, members }) => members.map((member) => [member, id] as const)));
  const tally = { merged: [] as (number | null)[], right: 0, pairs: 0, same: 0, sameFound: 0 };
  for (const { members } of groups) {
    if (new Set(members.map(matrixOf)).size > 1)
      tally.merged.push(members.map((id) => known.get(id)?.displacementUm ?? null).find((um) => um !== null) ?? null);
    members.forEach((a, i) => {
      for (const b of members.slice(i + 1)) {
        tally.pairs++;
        if (matrixOf(a) === matrixOf(b)) tally.right++;
      }
    });
  }
  objects.forEach((a, i) => {
    for (const b of objects.slice(i + 1)) {
      if (a.matrix !== b.matrix) continue;
      tally.same++;
      if (groupOf.has(a.id) && groupOf.get(a.id) === groupOf.get(b.id)) tally.sameFound++;
    }
  });
  return tally;
}

function falselyParted({ parted }: Grouping, objects: readonly CollectedObject[]): number {
  const matrixOf = new Map(objects.map(({ id, matrix }) => [id, matrix]));
  return parted.filter(({ sides }) => {
    const [one, other] = sides.map((side) => new Set(side.map((id) => matrixOf.get(id))));
    return [...one].some((matrix) => other.has(matrix));
  }).length;
}
