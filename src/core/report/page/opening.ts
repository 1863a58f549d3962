import type { ComparisonRecord } from '../record/schema.ts';
import { hypothesisPhrase, pairingOf, questionOf, stateSentence } from '../words.ts';
import { valueWords } from './evidence.ts';
import { list, opened, safe, section, terms } from './html.ts';
import { scaleWords, strengthScale } from './strength.ts';

/** A conclusion of the user's own, which stands beside the tool's. */
export interface OwnConclusion {
  readonly text: string;
  readonly signed: string;
  readonly date: string;
}

/** Who is compared with whom, and the question. */
export function heading(record: ComparisonRecord, title: string | undefined, simulated: boolean): string {
  const question = questionOf(record);
  const { reference, subject } = record;
  const notice = simulated
    ? '<p class="notice"><b>Simulated scans.</b> The objects, the people and the places are invented and the surfaces were computed. This page shows how the work is done; it says nothing about any real seal.</p>'
    : '';
  const second = title ? `<p class="question">${safe(question)}</p>` : '';
  return `<header><p class="running">Ectype · report of one comparison</p>
<h1>${safe(title ?? question)}</h1>${second}
<p class="pair"><span class="sc">subject</span> ${safe(subject.kind)}, <i>${safe(subject.file)}</i> <span class="sc">reference</span> ${safe(reference.kind)}, <i>${safe(reference.file)}</i></p>
${notice}</header>`;
}

/** The finding, its strength, the rival, the ground and the limits. */
export function findingSection(record: ComparisonRecord, own?: OwnConclusion): string {
  const { judge } = record;
  const body = `<p class="finding">${safe(judge.sentence)}</p>
${strengthScale(judge)}${scaleWords(judge, record.judge.gates.length > 0)}
${terms(pointsOf(record))}
${own ? conclusion(own) : ''}`;
  return section('finding', 'Finding', body);
}

function pointsOf(record: ComparisonRecord): Array<[string, string]> {
  const { judge, fit } = record;
  const pairing = pairingOf(record);
  const first = judge.hypotheses.find(({ id }) => id === 'sameMatrix');
  const points: Array<[string, string]> = [];
  if (first) points.push(['Rival', safe(opened(`${hypothesisPhrase(first.over, pairing)}.`))]);
  points.push(...grounds(record));
  if (fit.found)
    points.push(['State', safe([stateSentence(judge.state), judge.state.words].filter(Boolean).join(' '))]);
  if (judge.limits.length > 0) points.push(['Limits', list(judge.limits.map(({ words }) => words))]);
  if (typeof judge.calibration === 'string')
    points.push(['Strength learnt on', safe(opened(`${judge.calibration}.${population(judge)}`))]);
  return points;
}

const population = ({ population }: ComparisonRecord['judge']): string =>
  typeof population === 'string' ? ` ${population}` : '';

/** What speaks for the question's first answer, what against it, and what decides nothing. */
function grounds(record: ComparisonRecord): Array<[string, string]> {
  const pieces = record.judge.evidence;
  const side = (wanted: (favours: string) => boolean): string[] =>
    pieces
      .filter(({ favours }) => wanted(favours))
      .map((piece) => `${opened(piece.name)}, ${valueWords(piece)}${overWords(piece.over)}: ${piece.words}.`);
  const overWords = (over: string): string => (over === 'unrelated' ? ', over unrelated designs only' : '');
  const named: Array<[string, string[]]> = [
    ['Grounds for', side((favours) => favours === 'sameMatrix')],
    ['Grounds against', side((favours) => favours !== 'sameMatrix' && favours !== 'neither')],
    ['Decides nothing', side((favours) => favours === 'neither')],
  ];
  return named.filter(([, said]) => said.length > 0).map(([name, said]) => [name, list(said)]);
}

const conclusion = ({ text, signed, date }: OwnConclusion): string =>
  `<aside class="own"><h3>Conclusion of the reader</h3><p>${safe(text)}</p><p class="signed">${safe(signed)}, ${safe(date)}</p></aside>`;
