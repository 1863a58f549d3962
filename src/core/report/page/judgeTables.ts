import type { ComparisonRecord, MarkRecord } from '../record/schema.ts';
import { clockHour, hypothesisPhrase, pairingOf, statePhrase } from '../words.ts';
import { number, percent, safe, section, signedNumber, table, withSd } from './html.ts';
import { evidenceOf, valueWords } from './opening.ts';

/** The hypotheses, the evidence between them, wear and marks. */
export function judgeSection(record: ComparisonRecord): string {
  const parts = [hypothesesTable(record), evidenceTable(record), cellsLine(record)];
  return section('evidence', 'Evidence', parts.join('\n'));
}

function hypothesesTable(record: ComparisonRecord): string {
  const pairing = pairingOf(record);
  const calibrated = record.judge.hypotheses.some(({ log10Lr }) => log10Lr !== null);
  const columns = [
    { head: 'hypothesis', words: true },
    { head: 'weighed against', words: true },
    { head: 'reading', words: true },
    ...(calibrated ? [{ head: 'log₁₀ likelihood ratio' }] : []),
  ];
  const rows = record.judge.hypotheses.map((h) => [
    safe(hypothesisPhrase(h.id, pairing)),
    safe(hypothesisPhrase(h.over, pairing)),
    safe(h.words),
    ...(calibrated ? [number(h.log10Lr, 1)] : []),
  ]);
  const caption = calibrated
    ? 'The hypotheses weighed against one another, with likelihood ratios from the user’s own known pairs.'
    : 'The hypotheses weighed against one another, in words: no likelihood ratio is printed without known pairs of the user’s own.';
  return table(caption, columns, rows);
}

function evidenceTable(record: ComparisonRecord): string {
  const pieces = evidenceOf(record);
  if (pieces.length === 0) return '';
  const pairing = pairingOf(record);
  return table(
    'What each piece of evidence speaks for.',
    [
      { head: 'evidence', words: true },
      { head: 'value' },
      { head: 'what it is', words: true },
      { head: 'favours', words: true },
      { head: 'over', words: true },
    ],
    pieces.map((piece) => [
      safe(piece.name),
      safe(valueWords(piece)),
      safe(piece.words),
      safe(hypothesisPhrase(piece.favours, pairing)),
      piece.favours === 'neither' ? '–' : safe(hypothesisPhrase(piece.over, pairing)),
    ]),
  );
}

function cellsLine({ judge, fit }: ComparisonRecord): string {
  if (!fit.found) return '';
  const cells =
    judge.cells.compared > 0
      ? `${judge.cells.congruent} of ${judge.cells.compared} cells are congruent in place, turn and detail.`
      : 'No cells could be compared.';
  return `<p>${cells} Correlation of the detail over the overlap: ${number(judge.correlation, 3)}. Topography difference Σ(b − a)² / Σa²: ${number(judge.topographyDifference, 3)}. Score that the finding rests on: ${signedNumber(judge.score, 2)}, above 0 for one matrix; a score, no likelihood ratio.</p>`;
}

/** Wear by zone. */
export function wearSection({ wear, fit }: ComparisonRecord): string {
  if (!fit.found || wear.zones.length === 0) return '';
  const body = table(
    'State of each zone of the subject. Height kept is measured against the reference as it is today and may exceed 100 %.',
    [
      { head: 'zone', words: true },
      { head: 'state', words: true },
      { head: 'share of the zone' },
      { head: 'height kept' },
    ],
    wear.zones.map((zone) => [
      safe(zone.zone),
      safe(statePhrase[zone.state]),
      percent(zone.fraction),
      zone.heightKept === null ? '–' : `${withSd(100 * zone.heightKept, sdOf(zone.heightKeptSd), 0)} %`,
    ]),
  );
  return section('wear', 'Wear', body);
}

const sdOf = (sd: unknown): number | null => (typeof sd === 'number' ? 100 * sd : null);

/** Every mark that was found, with all its readings. */
export function damageSection({ damage }: ComparisonRecord): string {
  if (damage.length === 0) return '';
  const body = table(
    'Marks found on either face or in the differences. Places in degrees clockwise from 12 o’clock in the impression’s sense, with the clock hour and the distance from the face’s centre.',
    [
      { head: 'mark', words: true },
      { head: 'shape', words: true },
      { head: 'carried by', words: true },
      { head: 'on the subject', words: true },
      { head: 'place', words: true },
      { head: 'area, mm²' },
      { head: 'depth, mm' },
      { head: 'volume, mm³' },
      { head: 'can be read as', words: true },
    ],
    damage.map(markRow),
  );
  return section('marks', 'Marks', body);
}

const markRow = (mark: MarkRecord): string[] => [
  safe(mark.id),
  mark.shape === 'line' ? 'cut, crack or scratch' : safe(mark.shape),
  mark.carriedBy === 'both' ? 'both' : `the ${mark.carriedBy}`,
  mark.onSubject,
  `<span class="once">${number(mark.at.deg, 0)}°</span>, <span class="once">${clockHour(mark.at.hour)} o’clock</span>, <span class="once">${number(mark.at.radiusMm, 1)} mm</span>`,
  number(mark.areaMm2, 1),
  number(mark.depthMm, 3),
  number(mark.volumeMm3, 2),
  safe([...(mark.section ? [mark.section.words] : []), mark.readings.join('; ')].join(' ')),
];
