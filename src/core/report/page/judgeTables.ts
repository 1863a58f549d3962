import { stateDefaults } from '../../condition/index.ts';
import type { ComparisonRecord, MarkRecord } from '../record/schema.ts';
import { clockHour, zonePhrase } from '../words/phrases.ts';
import { hypothesisPhrase, pairingOf } from '../words/question.ts';
import { list, number, percent, safe, section, table, withSd } from './html.ts';
import { evidenceTable, gatesTable, scoreLines } from './weighing.ts';

/** The hypotheses, the evidence between them, wear and marks. */
export function judgeSection(record: ComparisonRecord): string {
  const parts = [hypothesesTable(record), evidenceTable(record), scoreLines(record), gatesTable(record)];
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

/** Wear by zone. */
export function wearSection({ wear, fit, reference }: ComparisonRecord): string {
  if (!fit.found || wear.zones.length === 0) return '';
  const than = reference.sense === 'intaglio' ? 'matrix' : 'reference';
  const body = table(
    'State of each zone of the subject: the commonest one other than sharp where it takes 12 % of what can be judged there, else sharp, and its share; the rest is in other states. Of what lies lower the cause is not told: rubbed, pressed flat, not filled by the wax or blurred look too much alike in a scan. Height kept is the share of the relief’s volume over the ground that the subject still has, with one standard deviation, against the reference as it is today; it may exceed 100 %. Read it only as far as the two are of one matrix.',
    [
      { head: 'zone', words: true },
      { head: 'state', words: true },
      { head: 'share of the zone' },
      { head: 'height kept' },
    ],
    wear.zones.map((zone) => [
      safe(zone.zone),
      safe(zonePhrase(zone.state, than)),
      percent(zone.fraction),
      zone.heightKept === null ? '–' : `${withSd(100 * zone.heightKept, sdOf(zone.heightKeptSd), 0)} %`,
    ]),
  );
  return section('wear', 'Wear', body);
}

const sdOf = (sd: unknown): number | null => (typeof sd === 'number' ? 100 * sd : null);

/** Every mark that was found, with all its readings. */
export function damageSection(record: ComparisonRecord): string {
  const { damage } = record;
  if (damage.length === 0) return '';
  const body = table(
    markCaption(record),
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

/** A depth from the differences is known to their level of detection; one from a single face to that face's noise. */
function markCaption({ difference }: ComparisonRecord): string {
  const { leastLength, leastSharedLength, leastVolumeMm3 } = stateDefaults;
  const level =
    typeof difference.levelOfDetectionMm === 'number' ? ` (${number(difference.levelOfDetectionMm, 3)} mm)` : '';
  return `Marks found on either face or in the differences, by the program: a list of places to look at. Places in degrees clockwise from 12 o’clock in the impression’s sense, with the clock hour and the distance from the face’s centre. Depth is what nine tenths of the mark do not exceed; a line’s section gives the mean along it, which is less. A depth taken from the differences is uncertain by up to their level of detection${level}; one found on a single face is held against that face’s noise alone and can be less. Of the readings of a mark at most one holds. The state is read from lines of the matrix at least ${percent(leastLength)} of the face long that were measured on both faces (${percent(leastSharedLength)} where both carry them) and from other marks of ${leastVolumeMm3} mm³ or more; the others, which may be strokes of letters out of place, are listed and not asked.`;
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
  list([...(mark.section ? [mark.section.words] : []), ...mark.readings]),
];
