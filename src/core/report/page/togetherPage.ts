import { toSvg } from '../drawing/index.ts';
import type { Figure } from '../figures/index.ts';
import type { ComparisonsRecord } from '../record/togetherSchema.ts';
import { clockHour } from '../words/phrases.ts';
import { cautionsSection } from './cautions.ts';
import { list, number, percent, safe, section, table } from './html.ts';
import { orderDrawing } from './orderDrawing.ts';
import { madeBy } from './page.ts';
import { notice } from './sheets.ts';
import { pageStyle, type Typeface } from './style.ts';
import { wholePage } from './wholePage.ts';

const seenWords = { present: 'present', absent: 'absent', cannotJudge: 'cannot judge' } as const;

export interface TogetherOptions {
  /** The figure of both faces of each pair, in order: they stand first. */
  readonly faces?: readonly (Figure | undefined)[];
  /** The depth-difference figure of each subject, in order: its seal is shown with the marks outlined. */
  readonly figures?: readonly (Figure | undefined)[];
  readonly typeface?: Typeface | undefined;
}

/**
 * One page for several subjects against one reference, in the form of the pairs' own: the answer and the order that the
 * marks allow, drawn; the marks on the seals; then limits and cautions, files and hashes. Dates from documents stand in
 * a column of their own. The record is in its source.
 */
export function togetherPage(
  record: ComparisonsRecord,
  { faces = [], figures = [], typeface }: TogetherOptions = {},
): string {
  const { comparisons, together } = record;
  const names = comparisons.map(({ subject }) => subject.file);
  const reference = comparisons[0].reference.file;
  const simulated = comparisons.some((comparison) => comparison.simulated === true);
  const body = [
    `<section class="sheet" id="answer"><header><p class="running">Ectype · report of several comparisons</p>
<h1>${safe(reference)} and ${names.length} subjects</h1>${simulated ? notice : ''}</header>
${bothSeals(faces, names)}
${subjectsTable(record, names)}
<h2>Order of states</h2>
${orderSection(record, names, reference)}</section>`,
    section(
      'marks',
      'Marks',
      `${marksOnSeals(figures, names)}${together.marks.length > 0 ? marksTable(record, names) : '<p>No mark was found on any of them.</p>'}`,
    ),
    section('limits', 'Limits', limitsOf(record, names)),
    cautionsSection(),
    section('files', 'Files', filesTable(record)),
    `<footer>${simulated ? 'Simulated scans. ' : ''}${madeBy(comparisons[0])}</footer>`,
  ];
  return wholePage(`${safe(reference)} and ${names.length} subjects`, pageStyle(typeface), body, record);
}

/** The reference beside each subject, in one light. */
function bothSeals(faces: readonly (Figure | undefined)[], names: readonly string[]): string {
  const pairs = faces.flatMap((figure, k) =>
    figure
      ? [
          `<figure>${toSvg(figure.drawing)}<figcaption><i>The reference and ${safe(names[k])}.</i>${figure.simulated ? ' Simulated scans.' : ''}</figcaption></figure>`,
        ]
      : [],
  );
  return pairs.length > 0 ? `<div class="pairs">${pairs.join('\n')}</div>` : '';
}

/** A step of the order is a state and no date; what contradicts is listed and orders nothing. */
function orderSection(record: ComparisonsRecord, names: readonly string[], reference: string): string {
  const drawing = orderDrawing(record.together, [...names, reference]);
  const picture = drawing
    ? `<figure>${toSvg(drawing)}<figcaption>Earlier states to the left; on each arrow the marks that it rests on. A state is no date.</figcaption></figure>`
    : '';
  return picture + orderList(record, names, reference);
}

function marksOnSeals(figures: readonly (Figure | undefined)[], names: readonly string[]): string {
  const seals = figures.flatMap((figure, k) =>
    figure
      ? [
          `<article class="ground"><figure>${toSvg(figure.drawing, { crop: figure.seal })}<figcaption><i>${safe(names[k])}.</i>${figure.simulated ? ' Simulated scans.' : ''} Marks have the names of this subject’s own report.</figcaption></figure></article>`,
        ]
      : [],
  );
  return seals.length > 0 ? `<div class="grounds">${seals.join('\n')}</div>` : '';
}

/** What limits any of the findings, said once with the subjects that it is of. */
function limitsOf({ comparisons }: ComparisonsRecord, names: readonly string[]): string {
  const whose = new Map<string, string[]>();
  comparisons.forEach(({ judge }, k) => {
    for (const { words } of judge.limits) whose.set(words, [...(whose.get(words) ?? []), names[k]]);
  });
  return list(
    [...whose].map(([words, of]) => (of.length === comparisons.length ? words : `${of.join(', ')}: ${words}`)),
  );
}

function filesTable({ comparisons }: ComparisonsRecord): string {
  const scans = [comparisons[0].reference, ...comparisons.map(({ subject }) => subject)];
  return table(
    'The scans. Everything else stands in the report of each pair.',
    [
      { head: 'file', words: true },
      { head: 'shows', words: true },
      { head: 'SHA-256', words: true },
    ],
    scans.map(({ file, kind, kindFrom, sha256 }) => [
      `<i>${safe(file)}</i>`,
      `${kind} (${kindFrom})`,
      `<code>${sha256.slice(0, 32)}<wbr>${sha256.slice(32)}</code>`,
    ]),
  );
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
      { head: 'strength', words: true },
      { head: 'shows best' },
      ...(dated ? [{ head: 'date from documents', words: true }] : []),
    ],
    comparisons.map(({ judge }, k) => [
      safe(names[k]),
      safe(judge.sentence),
      judge.finding === 'undecided'
        ? 'undecided'
        : `${judge.finding === 'supported' ? 'for' : 'against'}, ${judge.strength}`,
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
