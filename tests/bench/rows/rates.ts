import { readFileSync } from 'node:fs';
import { recipeAt } from '../../populations/index.ts';

const findings = ['supported', 'undecided', 'against', 'otherDesign'] as const;

/** Pairs as they were scored once, by the method of the commit in the last column: lines of a committed table, columns by name. */
export function rowsOf(name: 'second-2640-2738' | 'breech' | 'coverage-4240-4559'): Record<string, string>[] {
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

/** How far a hand copy is out of place, µm; 0 of all else. */
const umOf = (row: Record<string, string>): number => recipeAt(Number(row.seed)).displacementUm ?? 0;

/** The table of the second generator's pairs that were scored once. */
export function secondRates(): string[] {
  const rows = rowsOf('second-2640-2738');
  return groups.map(([title, test]) =>
    counted(
      title,
      rows.filter((row) => test(row.relation, umOf(row))),
    ),
  );
}

/** What is printed of them in records: pairs, those of one matrix and supported, and answers that are wrong. */
export function secondCounts() {
  const rows = rowsOf('second-2640-2738');
  const same = rows.filter(({ relation }) => ['same', 'cast', 'state', 'recast'].includes(relation));
  const different = rows.filter(({ relation }) => ['handCopy', 'sameMotif', 'unrelated'].includes(relation));
  const copies = rows.filter(({ relation }) => relation === 'handCopy');
  const recut = rows.filter(({ relation }) => relation === 'legendRecut');
  const said = (list: readonly Record<string, string>[], ...which: string[]): number =>
    list.filter(({ finding }) => which.includes(finding)).length;
  return {
    pairs: rows.length,
    same: same.length,
    sameSupported: said(same, 'supported'),
    // A legend cut again on the same matrix is neither another matrix nor another design.
    wrong: said(same, 'against', 'otherDesign') + said(different, 'supported') + said(recut, 'against', 'otherDesign'),
    supportedCopyOffMm: Math.max(
      ...different.filter(({ finding }) => finding === 'supported').map((row) => Math.round(umOf(row)) / 1000),
    ),
    handCopies: copies.length,
    handCopiesOtherDesign: said(copies, 'otherDesign'),
  };
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
  process.stdout.write(
    `${[...secondRates(), JSON.stringify(secondCounts()), ...lines, JSON.stringify(numbers)].join('\n')}\n`,
  );
}

/** Line of the documents' table: how many poses were laid, and how often the truth was within 1.96 of the printed standard deviations. */
export function coverageRates(): string {
  const rows = rowsOf('coverage-4240-4559').filter((row) => Number(row.turnDeg) <= 3 && Number(row.shiftMm) <= 1);
  const within = (error: string, sd: string): string => {
    const count = rows.filter((row) => Math.abs(Number(row[error])) < 1.96 * Number(row[sd])).length;
    return `${((100 * count) / rows.length).toFixed(1)} %`;
  };
  const shares = [within('turnDeg', 'turnSdDeg'), within('shiftMm', 'shiftSdMm'), within('size', 'sizeSd')];
  return `| ${rows.length} pairs | ${shares.join(' | ')} |`;
}
