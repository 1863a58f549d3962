import type { ComparisonsRecord } from '../record/togetherSchema.ts';
import { clockHour } from '../words/phrases.ts';
import { list, number, percent, safe, section, table } from './html.ts';
import { pageStyle } from './style.ts';
import { wholePage } from './wholePage.ts';

const seenWords = { present: 'present', absent: 'absent', cannotJudge: 'cannot judge' } as const;

/**
 * One page for several subjects against one reference: marks × subjects, the order that they allow, contradictions, sunk marks
 * that several share, and who shows what best. Dates from documents stand in a column of their own. The record is in its source.
 */
export function togetherPage(record: ComparisonsRecord): string {
  const { comparisons, together } = record;
  const names = comparisons.map(({ subject }) => subject.file);
  const reference = comparisons[0].reference.file;
  const body = [
    `<header><h1>${safe(reference)} and ${names.length} subjects</h1></header>`,
    section('subjects', 'Subjects', subjectsTable(record, names)),
    together.marks.length > 0
      ? section('marks', 'Marks', marksTable(record, names))
      : section('marks', 'Marks', '<p>No mark was found on any of them.</p>'),
    section('order', 'Order', orderList(record, names, reference)),
  ];
  return wholePage(`${safe(reference)} and ${names.length} subjects`, pageStyle(), body, record);
}

function subjectsTable({ comparisons, together }: ComparisonsRecord, names: readonly string[]): string {
  const dateOf = (k: number): string => together.dates?.find(({ subject }) => subject === k)?.words ?? '–';
  const share = (k: number): unknown => together.composite.find(({ subject }) => subject === k)?.fraction;
  const dated = together.dates !== undefined;
  return table(
    `Each subject’s own finding${dated ? '; dates are from documents, as they were stated, and nothing is worked out from them' : ''}. “Shows best” is the share of the face that it would give to a composite.`,
    [
      { head: 'subject', words: true },
      { head: 'finding', words: true },
      { head: 'shows best' },
      ...(dated ? [{ head: 'date from documents', words: true }] : []),
    ],
    comparisons.map(({ judge }, k) => [
      safe(names[k]),
      safe(judge.sentence),
      percent(share(k)),
      ...(dated ? [safe(dateOf(k))] : []),
    ]),
  );
}

function marksTable({ together }: ComparisonsRecord, names: readonly string[]): string {
  return table(
    'Which object shows which mark. Absent only where the place is filled, unworn and scanned; else cannot judge. Only marks that tell of the matrix’s state order the objects. Places on the impression, clockwise from 12 o’clock.',
    [
      { head: 'mark', words: true },
      { head: 'shape', words: true },
      { head: 'place', words: true },
      { head: 'tells of the state', words: true },
      { head: 'reference', words: true },
      ...names.map((name) => ({ head: safe(name), words: true })),
    ],
    together.marks.map((mark) => [
      safe(mark.id),
      `${mark.shape === 'line' ? 'cut, crack or scratch' : safe(String(mark.shape ?? ''))}, ${mark.raised ? 'raised' : 'sunk'}`,
      placeWords(mark.at),
      mark.tells === true ? 'yes' : 'no',
      mark.onReference ? 'present' : 'absent',
      ...mark.seen.map((seen) => seenWords[seen]),
    ]),
  );
}

function placeWords(at: unknown): string {
  const { deg, hour, radiusMm } = (at ?? {}) as Record<string, unknown>;
  if (typeof deg !== 'number' || typeof hour !== 'number') return '–';
  return `${number(deg, 0)}°, ${clockHour(hour)} o’clock, ${number(radiusMm, 1)} mm`;
}

const againstWords: Record<string, string> = {
  subjectEarlier: 'reads as earlier than',
  subjectLater: 'reads as later than',
  sameState: 'shows no change of state against',
};

const named = (marks: readonly string[]): string => (marks.length > 0 ? ` (${marks.join(', ')})` : '');

/** The partial order in sentences, then what cannot be judged, what contradicts and what several share. */
function orderList({ together }: ComparisonsRecord, names: readonly string[], reference: string): string {
  const against = together.againstReference ?? [];
  const steps = [
    ...against.flatMap(({ subject, reading, marks }) =>
      againstWords[reading]
        ? [`${names[subject]} ${againstWords[reading]} ${reference} as it is today${named(marks)}.`]
        : [],
    ),
    ...together.order.map(
      ({ earlier, later, marks }) => `${names[earlier]} reads as earlier than ${names[later]} (${marks.join(', ')}).`,
    ),
  ];
  const doubts = (together.contradictions ?? []).map(({ words }) => words);
  const shared = together.sharedAccidents.map(({ words }) => words);
  const open = against
    .filter(({ reading }) => reading === 'cannotJudge')
    .map(({ subject, words }) => `${names[subject]}: ${words}`);
  return [
    steps.length > 0 ? list(steps) : '<p>The marks allow no order.</p>',
    open.length > 0 ? `<p>Against ${safe(reference)} it cannot be judged:</p>${list(open)}` : '',
    doubts.length > 0 ? `<p>Contradictions, from which no order is drawn:</p>${list(doubts)}` : '',
    shared.length > 0 ? `<p>Sunk marks that several share:</p>${list(shared)}` : '',
  ].join('\n');
}
