import { readFileSync } from 'node:fs';
import { recipeAt } from '../../populations/index.ts';
import { crossCalibration, type ScoredPair } from './crossCalibration.ts';

/** Sets of the second generator whose rows have the columns of this file. */
export type SecondSet =
  | 'second-2640-2738'
  | 'second-5016-5081'
  | 'second-5115-5147'
  | 'second-20000-20131'
  | 'second-21000-21131'
  | 'second-50000-50131'
  | 'second-64000-64131'
  | 'second-65000-65131'
  | 'second-66000-66131'
  | 'second-66132-66263'
  | 'second-66264-66395'
  | 'second-67000-67131'
  | 'second-72000-72131'
  | 'second-74000-74131'
  | 'second-75000-75131'
  | 'second-76000-76131'
  | 'second-77000-77131'
  | 'second-78000-78131'
  | 'second-79000-79131'
  | 'second-80000-80131'
  | 'second-82000-82131'
  | 'second-83000-83131'
  | 'second-84000-84131'
  | 'second-85000-85131'
  | 'second-86000-86131'
  | 'second-87000-87131'
  | 'second-88000-88131'
  | 'second-90000-90131'
  | 'second-93000-93131'
  | 'second-94000-94131'
  | 'second-95000-95065'
  | 'second-96000-96131'
  | 'second-97000-97131';

/** Sets of the first generator, with the same columns. */
export type FirstSet =
  | 'first-780000-780239'
  | 'first-790000-790143'
  | 'first-800000-800095'
  | 'first-810000-810095'
  | 'first-820000-820095'
  | 'first-830000-830095'
  | 'first-840000-840095'
  | 'first-850000-850095'
  | 'first-860000-860095'
  | 'first-870000-870095'
  | 'first-880000-880095';

const findings = ['supported', 'undecided', 'against', 'otherDesign'] as const;

/** Poses of sets of the second generator, scored once against their stated uncertainty. */
export const coverageSets = [
  'coverage-4240-4559',
  'coverage-9000-10219',
  'coverage-98000-99219',
  'coverage-110000-111219',
] as const;
export type CoverageSet = (typeof coverageSets)[number];

/** Pairs as they were scored once, by the method of the commit in the last column: lines of a committed table, columns by name. */
export function rowsOf(name: SecondSet | FirstSet | 'breech' | CoverageSet): Record<string, string>[] {
  const [head, ...lines] = readFileSync(new URL(`${name}.csv`, import.meta.url), 'utf8')
    .trim()
    .split('\n');
  const names = head.split(',');
  return lines.map((line) => Object.fromEntries(line.split(',').map((value, k) => [names[k], value])));
}

/** The lines of the documents' table: pairs by relation, hand copies by how far they are out of place. */
const groups: readonly (readonly [title: string, test: (relation: string, um: number) => boolean])[] = [
  ['same', (relation) => relation === 'same'],
  ['cast', (relation) => relation === 'cast'],
  ['state', (relation) => relation === 'state'],
  ['recast', (relation) => relation === 'recast'],
  ['legend recut (undecided is right)', (relation) => relation === 'legendRecut'],
  ['copied by 30–60 µm', (relation, um) => relation === 'handCopy' && um < 60],
  ['copied by 60–150 µm', (relation, um) => relation === 'handCopy' && um >= 60 && um < 150],
  ['copied by 150 µm and more', (relation, um) => relation === 'handCopy' && um >= 150],
  ['motif cut anew', (relation) => relation === 'sameMotif'],
  ['unrelated', (relation) => relation === 'unrelated'],
];

const counted = (title: string, rows: readonly Record<string, string>[]): string =>
  `| ${[title, rows.length, ...findings.map((finding) => rows.filter((row) => row.finding === finding).length)].join(' | ')} |`;

/** How many of them were called one of these. */
const said = (list: readonly Record<string, string>[], ...which: string[]): number =>
  list.filter(({ finding }) => which.includes(finding)).length;

/** Rows of several sets together. */
const rowsOfAll = (sets: readonly SecondSet[]): Record<string, string>[] => sets.flatMap((set) => rowsOf(set));

/** How far a hand copy is out of place, µm; 0 of all else. */
const umOf = (row: Record<string, string>): number => recipeAt(Number(row.seed)).displacementUm ?? 0;

/** The table of a set of the second generator's pairs that was scored once. */
export function secondRates(set: SecondSet = 'second-2640-2738'): string[] {
  const rows = rowsOf(set);
  return groups.map(([title, test]) =>
    counted(
      title,
      rows.filter((row) => test(row.relation, umOf(row))),
    ),
  );
}

/** What the rows of the second generator's pairs are told apart by. */
type Row = Record<string, string>;
const ofOneMatrix = ['same', 'cast', 'state', 'recast'];
const isOfOneMatrix = ({ relation }: Row): boolean => ofOneMatrix.includes(relation);
const isRecut = ({ relation }: Row): boolean => relation === 'legendRecut';
const isCopy = ({ relation }: Row): boolean => relation === 'handCopy';
const isFarCopy = (row: Row): boolean => isCopy(row) && umOf(row) >= 60;
const isUnrelated = ({ relation }: Row): boolean => relation === 'unrelated';
const hasHalf = ({ imageLeft }: Row): boolean => Number(imageLeft) >= 0.5;

/** The same of the first, whose rows say how far a copyist's strokes are out of place. */
export function firstRates(set: FirstSet = 'first-780000-780239'): string[] {
  const rows = rowsOf(set);
  const line = (title: string, test: (row: Record<string, string>) => boolean): string =>
    counted(title, rows.filter(test));
  const copied = (least: number, most: number) => (row: Record<string, string>) =>
    row.relation === 'handCopy' && Number(row.um) >= least && Number(row.um) < most;
  return [
    line('one matrix, half of the image and more', (row) => isOfFirstMatrix(row) && Number(row.imageLeft) >= 0.5),
    line('one matrix, less', (row) => isOfFirstMatrix(row) && Number(row.imageLeft) < 0.5),
    line('copied by 30–60 µm', copied(30, 60)),
    line('copied by 60–150 µm', copied(60, 150)),
    line('copied by 150–300 µm', copied(150, 300)),
    line('stock motif, another legend', ({ relation }) => relation === 'stockMotif'),
    line('unrelated', ({ relation }) => relation === 'unrelated'),
  ];
}

const isOfFirstMatrix = ({ relation }: Record<string, string>): boolean =>
  !['handCopy', 'stockMotif', 'unrelated'].includes(relation);

/** What is printed of them in records. */
export function firstCounts(sets: readonly FirstSet[]) {
  const rows = sets.flatMap((set) => rowsOf(set));
  const same = rows.filter(isOfFirstMatrix);
  const others = rows.filter((row) => !isOfFirstMatrix(row) && !(row.relation === 'handCopy' && Number(row.um) < 60));
  return {
    pairs: rows.length,
    same: same.length,
    sameSupported: said(same, 'supported'),
    sameDenied: said(same, 'against', 'otherDesign'),
    others: others.length,
    othersSupported: said(others, 'supported'),
  };
}

/** Fitted pairs of a generator whose answer is known; a legend cut anew is of neither answer. Copies below 60 µm are left out where asked. */
function scoredPairs(
  rows: readonly Record<string, string>[],
  same: (row: Record<string, string>) => boolean,
  near: boolean,
) {
  return rows.flatMap((row): ScoredPair[] => {
    const um = Number(row.um);
    if (row.score === '' || row.relation === 'legendRecut' || (!near && row.relation === 'handCopy' && um < 60))
      return [];
    const kind = row.relation === 'handCopy' ? `copied by ${um < 60 ? 30 : um < 150 ? 60 : 150}` : row.relation;
    return [{ kind, same: same(row), score: Number(row.score) }];
  });
}

/** C_llr of either generator's fitted pairs, their scores made ratios on the other's: lines of the documents' table. */
export function generatorsCrossed(second: readonly SecondSet[], first: readonly FirstSet[]): string[] {
  return [false, true].flatMap((near) => {
    const ofSecond = scoredPairs(rowsOfAll(second), ({ relation }) => ofOneMatrix.includes(relation), near);
    const ofFirst = scoredPairs(
      first.flatMap((set) => rowsOf(set)),
      isOfFirstMatrix,
      near,
    );
    const line = (title: string, on: readonly ScoredPair[], of: readonly ScoredPair[]): string => {
      const { cllr, least } = crossCalibration(on, of);
      return `| ${title}${near ? ', copies below 60 µm too' : ''} | ${of.length} | ${cllr.toFixed(2)} | ${least.toFixed(2)} |`;
    };
    return [line('first generator, on the second', ofSecond, ofFirst), line('second, on the first', ofFirst, ofSecond)];
  });
}

/** Sets of the second whose counts every record prints, in the order in which they were scored. */
export const printedSets = [
  'second-50000-50131',
  'second-64000-64131',
  'second-65000-65131',
  'second-66000-66131',
  'second-66132-66263',
  'second-66264-66395',
  'second-67000-67131',
  'second-72000-72131',
  'second-74000-74131',
  'second-75000-75131',
  'second-76000-76131',
  'second-77000-77131',
  'second-78000-78131',
  'second-79000-79131',
  'second-80000-80131',
  'second-82000-82131',
  'second-83000-83131',
  'second-84000-84131',
  'second-85000-85131',
  'second-86000-86131',
  'second-87000-87131',
  'second-88000-88131',
  'second-90000-90131',
  'second-93000-93131',
  'second-94000-94131',
  'second-95000-95065',
  'second-96000-96131',
  'second-97000-97131',
] as const;
/** Those scored since a legend cut anew is weighed itself. */
export const newestSets = printedSets.slice(printedSets.indexOf('second-84000-84131'));
/** Those scored with coarse scans searched finely. */
export const searchedFinely = printedSets.slice(printedSets.indexOf('second-76000-76131'));
export const firstSets = [
  'first-780000-780239',
  'first-790000-790143',
  'first-800000-800095',
  'first-810000-810095',
  'first-820000-820095',
  'first-830000-830095',
  'first-840000-840095',
  'first-850000-850095',
  'first-860000-860095',
  'first-870000-870095',
  'first-880000-880095',
] as const;

/** What is printed of them in records: pairs, those of one matrix and supported, and answers that are wrong. */
export function secondCounts(...sets: readonly SecondSet[]) {
  const rows = rowsOfAll(sets);
  const same = rows.filter(isOfOneMatrix);
  const copies = rows.filter(isCopy);
  const far = rows.filter(isFarCopy);
  const recut = rows.filter(isRecut);
  const supportedCopies = copies.filter(({ finding }) => finding === 'supported');
  return {
    pairs: rows.length,
    same: same.length,
    sameSupported: said(same, 'supported'),
    sameDenied: said(same, 'against', 'otherDesign'),
    legendsRecut: recut.length,
    legendsRecutDenied: said(recut, 'against', 'otherDesign'),
    handCopies: copies.length,
    handCopiesSupported: supportedCopies.length,
    supportedCopyOffMm: Math.max(...supportedCopies.map((row) => Math.round(umOf(row)) / 1000)),
    handCopiesOtherDesign: said(copies, 'otherDesign'),
    farCopies: far.length,
    farCopiesDenied: said(far, 'against', 'otherDesign'),
  };
}

/**
 * The floors that a set is held against: how many of how many, and the one-sided 95 % bound of the share on its bad side (Clopper and
 * Pearson 1934). Every recipe has its own matrix, so pairs are matrices.
 */
export function secondFloors(...sets: readonly SecondSet[]): string[] {
  const rows = rowsOfAll(sets);
  const denied = ({ finding }: Record<string, string>): boolean => finding === 'against' || finding === 'otherDesign';
  const supported = ({ finding }: Record<string, string>): boolean => finding === 'supported';
  const same = rows.filter(isOfOneMatrix);
  const different = rows.filter(({ relation }) => ['handCopy', 'sameMotif', 'unrelated'].includes(relation));
  const recut = rows.filter(isRecut);
  const line = (title: string, list: readonly Record<string, string>[], good: typeof denied, bad = false): string => {
    const k = list.filter(good).length;
    const bound = bad ? upperBound(k, list.length) : 1 - upperBound(list.length - k, list.length);
    return `| ${title} | ${k} of ${list.length} | ${bad ? 'at most' : 'at least'} ${(100 * bound).toFixed(0)} % |`;
  };
  const half = same.filter(hasHalf);
  const far = different.filter((row) => !isCopy(row) || isFarCopy(row));
  return [
    line('one matrix, half of the image left and more: supported', half, supported),
    line('one matrix, all: supported', same, supported),
    line('different, copies from 60 µm on: against or other design', far, denied),
    line('copies from 60 µm on: against or other design', far.filter(isCopy), denied),
    line('unrelated: other design', far.filter(isUnrelated), denied),
    line('different, copies from 60 µm on: supported', far, supported, true),
    line(
      'copies below 60 µm: supported',
      different.filter((row) => !far.includes(row)),
      supported,
      true,
    ),
    line('one matrix or a legend cut anew on it: against or other design', [...same, ...recut], denied, true),
  ];
}

/** What is asked of the answers, and what they were: of all printed sets, and of the newest. Lines of the documents' table. */
export function summary(): string[] {
  const sets = [printedSets, newestSets].map((names) => rowsOfAll(names));
  const line = (title: string, asked: string, which: (row: Row) => boolean, ...answers: string[]) => {
    const shares = sets.map((rows) => {
      const list = rows.filter(which);
      const count = said(list, ...answers);
      return `${count} of ${list.length} (${((100 * count) / list.length).toFixed(1)} %)`;
    });
    return `| ${title} | ${asked} | ${shares.join(' | ')} |`;
  };
  const denied = ['against', 'otherDesign'];
  return [
    line('one matrix, half of the image: supported', '95 %', (row) => isOfOneMatrix(row) && hasHalf(row), 'supported'),
    line('one matrix, any part: supported', '–', isOfOneMatrix, 'supported'),
    line('one matrix: denied', 'none', isOfOneMatrix, ...denied),
    line('its legend cut anew: denied', 'none', isRecut, ...denied),
    line('copied by hand, 60 µm and more, half: denied', '80 %', (row) => isFarCopy(row) && hasHalf(row), ...denied),
    line('the same, any part: denied', '–', isFarCopy, ...denied),
    line('the same: supported', 'none', isFarCopy, 'supported'),
    line('copied by hand below 60 µm: supported', '–', (row) => isCopy(row) && !isFarCopy(row), 'supported'),
    line('unrelated, half: another design', '–', (row) => isUnrelated(row) && hasHalf(row), 'otherDesign'),
    line(
      'unrelated, or the motif cut anew: supported',
      'none',
      (row) => isUnrelated(row) || row.relation === 'sameMotif',
      'supported',
    ),
  ];
}

/** The share p at which k or fewer of n have a chance of 5 %. */
export function upperBound(k: number, n: number): number {
  if (k >= n) return 1;
  let [low, high] = [k / n, 1];
  for (let step = 0; step < 60; step++) {
    const p = (low + high) / 2;
    let [term, sum] = [(1 - p) ** n, 0];
    for (let i = 0; i <= k; i++) {
      sum += term;
      term *= ((n - i) / (i + 1)) * (p / (1 - p));
    }
    if (sum > 0.05) low = p;
    else high = p;
  }
  return low;
}

/** The table of the breech faces, and the numbers that stand under it. */
export function breechRates() {
  const rows = rowsOf('breech');
  const same = rows.filter(({ slideA, slideB }) => slideA === slideB);
  const different = rows.filter(({ slideA, slideB }) => slideA !== slideB);
  const numbers = (list: readonly Record<string, string>[], column: string): number[] =>
    list.filter((row) => row[column] !== '').map((row) => Number(row[column]));
  const chance = (list: readonly Record<string, string>[]): number[] => numbers(list, 'log10Chance');
  // Share of pairs of pairs in which the one slide's chance is the smaller (Mann and Whitney).
  let above = 0;
  for (const a of chance(same)) for (const b of chance(different)) above += a < b ? 1 : a === b ? 0.5 : 0;
  return {
    lines: [counted('one slide', same), counted('different slides', different)],
    area: above / (same.length * different.length),
    sameSignificance: [Math.min(...numbers(same, 'significance')), Math.max(...numbers(same, 'significance'))],
    sameMostLog10Chance: Math.max(...chance(same)),
    sameScore: [Math.min(...numbers(same, 'score')), Math.max(...numbers(same, 'score'))],
    differentMostSignificance: Math.max(...numbers(different, 'significance')),
    differentLeastLog10Chance: Math.min(...chance(different)),
    differentFound: different.filter(({ found }) => found === '1').length,
    denied: different.filter(({ finding }) => finding === 'against' || finding === 'otherDesign').length,
    different: different.length,
  };
}

/** `npm run bench -- rows`: the tables of docs/judge.md, from the committed rows. */
export function printRates(): void {
  const { lines, ...numbers } = breechRates();
  const [third, fourth] = ['second-5016-5081', 'second-5115-5147'] as const;
  const [fifth, sixth] = ['second-20000-20131', 'second-21000-21131'] as const;
  const later = [third, fourth, fifth, sixth].flatMap((set) => [set, ...secondRates(set)]);
  const floors = [[third], [third, fourth], [fifth], [sixth]].flatMap((sets) => [
    sets.join(' and '),
    ...secondFloors(...sets),
  ]);
  const all = [
    ...secondRates(),
    JSON.stringify(secondCounts(sixth)),
    ...later,
    ...floors,
    ...lines,
    JSON.stringify(numbers),
    ...firstSets.flatMap((set) => [set, ...firstRates(set)]),
    ...generatorsCrossed(searchedFinely, firstSets),
    ...summary(),
  ];
  process.stdout.write(`${all.join('\n')}\n`);
}

/** Line of the documents' table: how many poses were laid, and how often the truth was within 1.96 of the printed standard deviations. */
export function coverageRates(set: CoverageSet): string {
  const rows = rowsOf(set).filter((row) => Number(row.turnDeg) <= 3 && Number(row.shiftMm) <= 1);
  const within = (error: string, sd: string): string => {
    const count = rows.filter((row) => Math.abs(Number(row[error])) < 1.96 * Number(row[sd])).length;
    return `${((100 * count) / rows.length).toFixed(1)} %`;
  };
  const shares = [within('turnDeg', 'turnSdDeg'), within('shiftMm', 'shiftSdMm'), within('size', 'sizeSd')];
  return `| ${rows.length} pairs | ${shares.join(' | ')} |`;
}
