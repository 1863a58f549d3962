import { findCandidates } from '../../../src/core/collection/index.ts';
import { type Row, share } from '../table.ts';
import { type IndexedObject, isRight, tableOf } from './indexed.ts';

/** What a search of every object over all objects gave: by query the places of the candidates. */
export interface Searched {
  readonly candidates: readonly (readonly {
    readonly index: number;
    readonly score: number;
    readonly likely: boolean;
  }[])[];
}

export const wanted = 20;

export function searchAll(objects: readonly IndexedObject[], say: (line: string) => void): Searched {
  const table = tableOf(objects.map(({ index }) => index));
  const candidates = objects.map((object, k) => {
    if (k % 250 === 0) say(`searched for ${k} of ${objects.length}`);
    // The object itself is in the table: one more is asked for and it is left out.
    const found = findCandidates(object.index, table, (place) => objects[place].index.local, wanted + 1);
    return found
      .filter(({ index }) => index !== k)
      .slice(0, wanted)
      .map(({ index, score, likely }) => ({ index, score, likely }));
  });
  return { candidates };
}

/** Recall of the right matrix among twenty, by what is left of the query's image. */
export function recallRows(objects: readonly IndexedObject[], { candidates }: Searched): Row[] {
  const rows: Row[] = [];
  const bands: readonly [string, number, number, string][] = [
    ['60 % of the image and more', 0.6, 1.1, 'at least 99 %'],
    ['30 to 60 %', 0.3, 0.6, 'at least 90 %'],
  ];
  for (const [words, low, high, floor] of bands) {
    const queries = objects.flatMap((query, k) =>
      query.imageLeft >= low && query.imageLeft < high && objects.some((other) => isRight(query, other)) ? [k] : [],
    );
    const place = queries.map((k) => candidates[k].findIndex(({ index }) => isRight(objects[k], objects[index])));
    const within = (n: number): number => place.filter((p) => p >= 0 && p < n).length;
    rows.push(
      {
        what: `right matrix among ${wanted}, query with ${words}`,
        floor,
        measured: share(within(wanted), queries.length),
      },
      { what: `right matrix first, ${words}`, floor: '', measured: share(within(1), queries.length) },
    );
    const others = queries.flatMap((k) => objects.flatMap((other, j) => (isRight(objects[k], other) ? [[k, j]] : [])));
    const found = others.filter(([k, j]) => candidates[k].some(({ index }) => index === j));
    rows.push({
      what: `of all other objects of the matrix, listed among ${wanted}, ${words}`,
      floor: '',
      measured: share(found.length, others.length),
    });
  }
  const mirrored = objects.flatMap((object, k) => (object.decoy ? [k] : []));
  const originals = mirrored.filter((k) =>
    candidates[k].some(({ index, likely }) => likely && `${objects[index].matrix}-mirrored` === objects[k].matrix),
  );
  rows.push({
    what: 'mirrored files for which an object of the matrix is called likely',
    floor: '',
    measured: share(originals.length, mirrored.length),
  });
  return rows;
}
