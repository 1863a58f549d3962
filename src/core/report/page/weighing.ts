import type { ComparisonRecord } from '../record/schema.ts';
import { hypothesisPhrase, pairingOf } from '../words/question.ts';
import { valueWords } from './evidence.ts';
import { number, safe, signedNumber, table } from './html.ts';

/** Each piece of evidence, what it speaks for and over what. */
export function evidenceTable(record: ComparisonRecord): string {
  const pieces = record.judge.evidence;
  if (pieces.length === 0) return '';
  const pairing = pairingOf(record);
  return table(
    'What each piece of evidence speaks for. The two lines of places make the score: it is against the mixture of both rivals, half and half. A ratio below 0.3 either way is said to favour none.',
    [
      { head: 'evidence', words: true },
      { head: 'value' },
      { head: 'what it is', words: true },
      { head: 'favours', words: true },
      { head: 'over', words: true },
    ],
    pieces.map((piece) => [
      safe(piece.name),
      `<span class="once">${safe(valueWords(piece))}</span>`,
      safe(piece.words),
      safe(hypothesisPhrase(piece.favours, pairing)),
      piece.favours === 'neither' ? '–' : safe(hypothesisPhrase(piece.over, pairing)),
    ]),
  );
}

/** The score with its interval, and the two measures of the whole overlap. */
export function scoreLines({ judge, fit }: ComparisonRecord): string {
  if (!fit.found) return '';
  const cells =
    judge.cells.compared > 0
      ? `${judge.cells.congruent} of ${judge.cells.compared} cells are congruent in place, turn and detail.`
      : 'No cells could be compared.';
  const interval = judge.interval as readonly number[] | null | undefined;
  const between = interval
    ? ` Without one eighth of the face after another it lies between ${signedNumber(interval[0], 2)} and ${signedNumber(interval[1], 2)}.`
    : '';
  return `<p>${cells} Over the whole overlap, after the smooth warp, relief between the finest wavelength that both resolve and a tenth of the face correlates by ${number(judge.correlation, 3)}; topography difference Σ(b − a)² / Σa²: ${number(judge.topographyDifference, 3)} (0 for equal relief). Neither is weighed.</p>
<p>Score that the finding rests on: ${signedNumber(judge.score, 2)}, log₁₀ of how much likelier the places are under one matrix than under its rivals; a score, no likelihood ratio.${between}</p>`;
}

const groupPhrase: Record<string, string> = { support: 'supported', against: 'against', otherDesign: 'other design' };

const boundPhrase = { atLeast: 'at least', atMost: 'at most' } as const;

/** The finding's thresholds beside the numbers that were held against them. */
export function gatesTable(record: ComparisonRecord): string {
  const gates = record.judge.gates;
  if (gates.length === 0) return '';
  const digits = (values: readonly (number | null)[]): number => (values.every(Number.isInteger) ? 0 : 3);
  return table(
    'From the numbers to the finding. It is “supported” where every line of “supported” holds, else “against” where every line of “against” holds, else “other design” where every line of that holds, else “undecided”.',
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
