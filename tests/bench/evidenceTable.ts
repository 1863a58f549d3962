import { existsSync, readdirSync, readFileSync } from 'node:fs';
import type { Fit } from '../../src/core/fit/index.ts';
import { cllr, log10LikelihoodRatio, rocArea } from '../../src/core/judge/calibration.ts';
import { conclude } from '../../src/core/judge/finding.ts';
import { questionOf } from '../../src/core/judge/question.ts';
import { scoreOf } from '../../src/core/judge/score.ts';
import type { Finding, Strength } from '../../src/core/judge/types.ts';
import type { EvidenceRow } from './evidence.ts';
import { isSame } from './fitScore.ts';
import { noneSeenBound, quantileOf, type Row, share, tableOf } from './table.ts';

/** A pair without a fit has no score; it counts as the lowest there is. */
const noFit = -9;

interface Judged {
  readonly row: EvidenceRow;
  readonly same: boolean;
  readonly score: number;
  readonly finding: Finding;
  readonly strength: Strength;
}

/** The rows that `evidenceRows` left in the folder; numbers that could not be had are NaN again. */
export function readRows(folder: string): EvidenceRow[] {
  if (!existsSync(folder)) return [];
  const lines = readdirSync(folder)
    .filter((name) => name.endsWith('.jsonl'))
    .flatMap((name) => readFileSync(`${folder}/${name}`, 'utf8').trim().split('\n'));
  return lines.map((line) => JSON.parse(line, (_, value) => (value === null ? Number.NaN : value)));
}

function judged(row: EvidenceRow): Judged {
  const features = row.found ? row.features : null;
  const score = features ? scoreOf(features).score : noFit;
  const fit = { found: row.found, overlap: row.overlap, doubts: row.doubts, mirrored: false } as unknown as Fit;
  const { finding, strength } = conclude(fit, features, score, questionOf('intaglio', 'relief'));
  return { row, same: isSame(row), score, finding, strength };
}

/** The tables of docs/judge.md: findings, C_llr, ROC, misleading evidence by coverage and wear, the hardest pairs. */
export function evidenceTables(rows: readonly EvidenceRow[]): string {
  const list = rows.map(judged);
  const reference = list.filter(({ row }) => row.set === 'reference');
  const heldOut = list.filter(({ row }) => row.set === 'heldOut');
  const fine = list.filter(({ row }) => row.set === 'fine');
  return [
    '### Held-out pairs: new seeds, motifs that the reference set does not have',
    '',
    findingsTable(heldOut),
    '',
    tableOf(floors(reference, heldOut)),
    '',
    '### Held-out pairs scanned as finely as seals usually are',
    '',
    findingsTable(fine),
    '',
    tableOf(floors(reference, fine)),
    '',
    '### By coverage and wear (both held-out sets)',
    '',
    strata([...heldOut, ...fine]),
    '',
    '### Reference set',
    '',
    findingsTable(reference),
    '',
    '### ROC over all sets: shares at or above a score',
    '',
    roc(list),
    '',
    '### Confident errors, and the ten hardest pairs',
    '',
    ...hardest(list),
    '',
  ].join('\n');
}

const count = (list: readonly Judged[], finding: Finding): number =>
  list.filter((one) => one.finding === finding).length;

function findingsTable(list: readonly Judged[]): string {
  const relations = [...new Set(list.map(({ row }) => row.relation))];
  const lines = relations.map((relation) => {
    const of = list.filter(({ row }) => row.relation === relation);
    const scores = of.filter(({ row }) => row.found).map(({ score }) => score);
    const spread = scores.length > 0 ? [0, 0.05, 0.5, 0.95, 1].map((q) => quantileOf(scores, q).toFixed(2)) : ['–'];
    const counts = (['supported', 'undecided', 'against'] as const).map((finding) => count(of, finding));
    return `| ${[relation, of.length, of.filter(({ row }) => row.found).length, ...counts, spread.join(', ')].join(' | ')} |`;
  });
  return [
    '| pairs | n | fitted | supported | undecided | against | score of the fitted: least, 5 %, median, 95 %, greatest |',
    '|---|---|---|---|---|---|---|',
    ...lines,
  ].join('\n');
}

const zeroBound = (seen: number, of: number): string => (seen === 0 ? `, ${noneSeenBound(of)}` : '');

function floors(reference: readonly Judged[], heldOut: readonly Judged[]): Row[] {
  const same = heldOut.filter((one) => one.same);
  const other = heldOut.filter((one) => !one.same);
  const easy = same.filter(({ row }) => row.recipe.coverage >= 0.6 && row.recipe.wear <= 0.5);
  const fragments = heldOut.filter(({ row }) => row.recipe.coverage <= 0.5);
  const wrong = (one: Judged): boolean => (one.same ? one.finding === 'against' : one.finding === 'supported');
  const supported = count(other, 'supported');
  const fragmentErrors = fragments.filter(wrong).length;
  const known = {
    name: 'reference set',
    same: reference.filter((one) => one.same).map(({ score }) => score),
    different: reference.filter((one) => !one.same).map(({ score }) => score),
  };
  const costOf = (list: readonly Judged[]): string => {
    const ratio = ({ score }: Judged): number => 10 ** (log10LikelihoodRatio(score, known) ?? 0);
    return cllr(list.filter((one) => one.same).map(ratio), list.filter((one) => !one.same).map(ratio)).toFixed(3);
  };
  const area = rocArea({ same: same.map(({ score }) => score), different: other.map(({ score }) => score) });
  const copies = other.filter(({ row }) => row.relation === 'handCopy').length;
  return [
    {
      what: `different matrix supported (${copies} of ${other.length} are hand copies)`,
      floor: 'none',
      measured: `${share(supported, other.length)}${zeroBound(supported, other.length)}`,
    },
    {
      what: 'one matrix, coverage ≥ 60 %, wear ≤ 0.5: supported',
      floor: '95 %',
      measured: share(count(easy, 'supported'), easy.length),
    },
    {
      what: 'the same: against',
      floor: 'at most 1 %',
      measured: `${share(count(easy, 'against'), easy.length)}${zeroBound(count(easy, 'against'), easy.length)}`,
    },
    { what: 'all of one matrix: against', floor: '', measured: share(count(same, 'against'), same.length) },
    {
      what: 'C_llr, mapping from the reference set, pairs without a fit included',
      floor: '0.15',
      measured: `${costOf(heldOut)}; coverage ≥ 50 % ${costOf(heldOut.filter(({ row }) => row.recipe.coverage >= 0.5))}`,
    },
    { what: 'area under the ROC curve', floor: '', measured: area.toFixed(4) },
    {
      what: '20–50 % of the face left: confidently wrong',
      floor: 'none',
      measured: `${share(fragmentErrors, fragments.length)}${zeroBound(fragmentErrors, fragments.length)}`,
    },
  ];
}

function strata(list: readonly Judged[]): string {
  const coverage = [
    [0.2, 0.5],
    [0.5, 0.75],
    [0.75, 1.01],
  ];
  const wear = [
    [0, 0.3],
    [0.3, 0.6],
    [0.6, 0.91],
  ];
  const lines = coverage.flatMap(([c0, c1]) =>
    wear.map(([w0, w1]) => {
      const within = list.filter(({ row: { recipe } }) => {
        const { coverage: c, wear: w } = recipe;
        return c >= c0 && c < c1 && w >= w0 && w < w1;
      });
      const same = within.filter((one) => one.same);
      const other = within.filter((one) => !one.same);
      const misleading = (of: readonly Judged[], finding: Finding): string => `${count(of, finding)} of ${of.length}`;
      return `| ${c0}–${Math.min(1, c1)} | ${w0}–${Math.min(0.9, w1)} | ${misleading(same, 'supported')} | ${misleading(same, 'against')} | ${misleading(other, 'supported')} | ${misleading(other, 'against')} |`;
    }),
  );
  return [
    '| coverage | wear | one matrix: supported | one matrix: against | different: supported | different: against |',
    '|---|---|---|---|---|---|',
    ...lines,
  ].join('\n');
}

function roc(list: readonly Judged[]): string {
  const same = list.filter((one) => one.same);
  const other = list.filter((one) => !one.same);
  const at = (of: readonly Judged[], score: number): string =>
    share(of.filter((one) => one.score >= score).length, of.length);
  return [
    '| score | one matrix | different matrices |',
    '|---|---|---|',
    ...[-2, -1.5, -1, -0.5, 0, 0.5, 1, 1.5, 2, 2.5, 3].map(
      (score) => `| ${score} | ${at(same, score)} | ${at(other, score)} |`,
    ),
  ].join('\n');
}

function hardest(list: readonly Judged[]): string[] {
  const wrong = list.filter((one) => (one.same ? one.finding === 'against' : one.finding === 'supported'));
  const badness = ({ same, score }: Judged): number => (same ? -score : score);
  const fitted = list.filter((one) => one.row.found && !wrong.includes(one)).sort((a, b) => badness(b) - badness(a));
  return [
    wrong.length === 0 ? 'No confident error.' : 'Confident errors:',
    ...wrong.map(lineOf),
    '',
    'Hardest of the rest:',
    ...fitted.slice(0, 10).map(lineOf),
  ];
}

function lineOf({ row, score, finding, strength }: Judged): string {
  const { recipe, features } = row;
  const grounds = features
    ? `landmarks ${features.constellation.landmarks.length} of ${features.constellation.found}, ${(1000 * features.constellation.smoothMm).toFixed(0)} µm, outside ${features.constellation.outside.toFixed(2)}; cells ${features.cells.congruent} of ${features.cells.compared}; spacing ${features.spacingMm.toFixed(2)} mm`
    : 'no fit';
  return `- ${row.relation}, ${row.set}, seed ${row.seed}: ${recipe.shape} ${recipe.sizeMm.toFixed(0)} mm, ${recipe.motif}, ${recipe.vertices} vertices${recipe.whole ? ', whole object' : ''}, coverage ${recipe.coverage.toFixed(2)}, wear ${recipe.wear.toFixed(2)}, warp ${recipe.warpMm.toFixed(2)} mm: score ${score.toFixed(2)}, ${finding}${strength === 'none' ? '' : ` (${strength})`}; ${grounds}`;
}
