import { capital } from '../../scan/index.ts';
import type { ComparisonRecord } from '../record/schema.ts';
import { hypothesisPhrase, pairingOf } from '../words/question.ts';
import { valueWords } from './evidence.ts';
import { list, safe, section, terms } from './html.ts';
import { scaleWords } from './strength.ts';

/** How the strength was come by: the rival, what each piece speaks for, and what the steps were set on. */
export function weightSection(record: ComparisonRecord): string {
  const { judge } = record;
  const first = judge.hypotheses.find(({ id }) => id === 'sameMatrix');
  const points: Array<[string, string]> = [];
  if (first) points.push(['Rival', safe(capital(`${hypothesisPhrase(first.over, pairingOf(record))}.`))]);
  points.push(...sidesOf(record));
  points.push(['Limits', list(judge.limits.map(({ words }) => words))]);
  if (typeof judge.calibration === 'string')
    points.push(['Strength learnt on', safe(capital(`${judge.calibration}. ${judge.population ?? ''}`))]);
  return section(
    'weight',
    'How the strength was come by',
    `${scaleWords(judge, judge.gates.length > 0)}${terms(points)}`,
  );
}

/** What speaks for the question's first answer, what against it, and what decides nothing. */
function sidesOf({ judge }: ComparisonRecord): Array<[string, string]> {
  const side = (wanted: (favours: string) => boolean): string[] =>
    judge.evidence
      .filter(({ favours }) => wanted(favours))
      .map((piece) => `${capital(piece.name)}, ${valueWords(piece)}${overWords(piece.over)}: ${piece.words}.`);
  const overWords = (over: string): string => (over === 'unrelated' ? ', over unrelated designs only' : '');
  const named: Array<[string, string[]]> = [
    ['Grounds for', side((favours) => favours === 'sameMatrix')],
    ['Grounds against', side((favours) => favours !== 'sameMatrix' && favours !== 'neither')],
    ['Decides nothing', side((favours) => favours === 'neither')],
  ];
  return named.filter(([, said]) => said.length > 0).map(([name, said]) => [name, list(said)]);
}
