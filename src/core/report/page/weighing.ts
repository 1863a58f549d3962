import type { ComparisonRecord } from '../record/schema.ts';
import { hypothesisPhrase, pairingOf } from '../words.ts';
import { evidenceOf, gatesOf, valueWords } from './evidence.ts';
import { number, safe, signedNumber, table } from './html.ts';

/** Each piece of evidence with what it adds to the score, so that the score can be added up from the page. */
export function evidenceTable(record: ComparisonRecord): string {
  const pieces = evidenceOf(record);
  if (pieces.length === 0) return '';
  const pairing = pairingOf(record);
  return table(
    'What each piece of evidence speaks for, and what it adds to the score: weight × log₁₀ of the ratio of its densities among simulated pairs of one matrix and of the rival named below, the ratio held within ± 3 before it is weighed. A piece that adds less than 0.15 either way is said to favour none; one with a dash is not weighed.',
    [
      { head: 'evidence', words: true },
      { head: 'value' },
      { head: 'what it is', words: true },
      { head: 'favours', words: true },
      { head: 'over', words: true },
      { head: 'adds to the score' },
    ],
    pieces.map((piece) => [
      safe(piece.name),
      `<span class="once">${safe(valueWords(piece))}</span>`,
      safe(piece.words),
      safe(hypothesisPhrase(piece.favours, pairing)),
      piece.favours === 'neither' ? '–' : safe(hypothesisPhrase(piece.over, pairing)),
      typeof piece.weighed === 'number' ? signedNumber(piece.weighed, 3) : '–',
    ]),
  );
}

const rivalPhrase: Record<string, string> = {
  handCopy: 'a matrix cut again by hand',
  stockMotif: 'a matrix with the same motif and another legend',
};

interface ScoredAgainst {
  readonly rival: string;
  readonly offset: number;
}

/** The score as a sum, and the two measures of the whole overlap. */
export function scoreLines({ judge, fit }: ComparisonRecord): string {
  if (!fit.found) return '';
  const cells =
    judge.cells.compared > 0
      ? `${judge.cells.congruent} of ${judge.cells.compared} cells are congruent in place, turn and detail.`
      : 'No cells could be compared.';
  const against = judge.scoredAgainst as ScoredAgainst | null | undefined;
  const rival = against
    ? ` It is what the column above adds up to and ${signedNumber(against.offset, 3)}, the constant of the rival that explains the pair best: ${rivalPhrase[against.rival] ?? safe(against.rival)}.`
    : '';
  return `<p>${cells} Over the whole overlap, after the smooth warp, relief between the finest wavelength that both resolve and a tenth of the face correlates by ${number(judge.correlation, 3)}; topography difference Σ(b − a)² / Σa²: ${number(judge.topographyDifference, 3)} (0 for equal relief). Neither is weighed.</p>
<p>Score that the finding rests on: ${signedNumber(judge.score, 2)}, above 0 for one matrix; a score, no likelihood ratio.${rival}</p>`;
}

const groupPhrase: Record<string, string> = {
  support: 'supported',
  against: 'against',
  offPlace: 'against, by places',
  otherLegend: 'against, by the legend',
};

const boundPhrase = { atLeast: 'at least', atMost: 'at most', below: 'below' } as const;

/** The finding's thresholds beside the numbers that were held against them. */
export function gatesTable(record: ComparisonRecord): string {
  const gates = gatesOf(record);
  if (gates.length === 0) return '';
  const digits = (values: readonly (number | null)[]): number => (values.every(Number.isInteger) ? 0 : 3);
  return table(
    'From the numbers to the finding. It is “supported” where every line of “supported” holds; “against” where every line of “against” holds, and every line by places or every line by the legend; else “undecided”.',
    [
      { head: 'for the finding', words: true },
      { head: 'what', words: true },
      { head: 'asked' },
      { head: 'here' },
      { head: 'holds', words: true },
    ],
    gates.map(({ group, name, value, bound, limit, unit, passed }) => {
      const after = unit ? ` ${safe(unit)}` : '';
      const places = digits([value, limit]);
      return [
        groupPhrase[group] ?? safe(group),
        safe(name),
        `${boundPhrase[bound]} ${number(limit, places)}${after}`,
        value === null ? '–' : `${number(value, places)}${after}`,
        passed ? 'yes' : 'no',
      ];
    }),
  );
}
