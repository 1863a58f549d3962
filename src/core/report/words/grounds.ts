import type { Ground, GroundCode } from '../grounds.ts';
import type { ComparisonRecord, MarkRecord } from '../record/schema.ts';
import { clockHour } from './phrases.ts';
import { type Roles, rolesOf } from './roles.ts';

/** A ground in words: its name, what it says, what speaks against it, and what would overturn it. */
export interface GroundWords {
  readonly name: string;
  readonly says: string;
  readonly against: string;
  readonly overturn: string;
}

/** One ground of a record in plain sentences; the numbers are the record's own. */
export const groundWords = ({ code }: Pick<Ground, 'code'>, record: ComparisonRecord): GroundWords =>
  subjects[code](record, rolesOf(record));

type InWords = (record: ComparisonRecord, roles: Roles) => GroundWords;

const subjects: Readonly<Record<GroundCode, InWords>> = {
  places: ({ judge }) => {
    const { seen = 0, found = 0, smoothMm = null, outside = 0 } = judge.landmarks ?? {};
    const off = Math.round(outside * seen);
    const half = `half lie within ${micrometres(smoothMm)} of where the others put them`;
    const apart = `${off} of ${seen} lie outside their error, and ${found - seen} more have no counterpart`;
    const another = (judge.score ?? 0) < 0;
    return {
      name: 'Where the letters stand',
      says: another
        ? `The letters and ornaments do not stand as one matrix would put them: of ${seen} seen on both, ${half}, which is farther than wax moves.`
        : `Of ${seen} letters and ornaments seen on both, ${half}.`,
      against: another
        ? 'Wax that flowed unevenly moves letters too, but neighbours together; look whether the arrows change smoothly.'
        : off + found - seen > 0
          ? `${sentenceCase(apart)}: accidents and lips of wax do that, and so does another legend.`
          : 'None of the places lies outside its error.',
      overturn: another
        ? 'A wrong fit would: compare the turns that fit nearly as well.'
        : 'A cast of the matrix keeps every place. So does a copy cut more exactly than the places are told.',
    };
  },
  relief: ({ fit, judge }) => ({
    name: 'The relief as a whole',
    says: `Laid on one another, the two reliefs agree ${number(fit.significance)} standard deviations above chance, over ${percent(fit.overlap)} of the smaller face.`,
    against:
      fit.rivalTurns.length > 0
        ? `${fit.rivalTurns.length} other turns fit nearly as well.`
        : 'No other turn fits nearly as well.',
    overturn:
      judge.finding === 'otherDesign'
        ? 'A better lay of the two: begin the fit from places marked by hand.'
        : 'It says that the designs are alike. Two matrices cut after one pattern agree as well.',
  }),
  nothingCorresponds: ({ judge }) => ({
    name: 'Nothing corresponds',
    says:
      judge.finding === 'otherDesign'
        ? 'Both faces are clear enough that one design would have been found on the two, and none was.'
        : 'No way was found to lay the two faces on one another.',
    against: 'The search can miss a pair that is too worn, too broken or too coarsely scanned.',
    overturn: 'Places that a person marks on both and that then fit; or two sides of one seal, which share no design.',
  }),
  cells: ({ judge: { cells } }) => ({
    name: 'Part by part',
    says: `${cells.congruent} of ${cells.compared} parts of the face agree in place, turn and detail.`,
    against:
      cells.compared > cells.congruent
        ? `${cells.compared - cells.congruent} do not: look whether wear, loss or a lip lies there, or other engraving.`
        : 'None of them disagrees.',
    overturn: 'It is shown and not weighed: what is worn disagrees on the same matrix as well.',
  }),
  sharedMarks: ({ damage }, roles) => ({
    name: 'Marks that both carry',
    says: `${sentenceCase(roles.reference)} and ${roles.subject} share ${markList(damage.filter(({ carriedBy }) => carriedBy === 'both'))}.`,
    against: 'A stroke of the design that was out of place on both can be taken for a mark.',
    overturn: 'A cast shares every mark of its original, and impressions share dirt and solder that sat on the matrix.',
  }),
  state: ({ damage, judge: { state } }, roles) => ({
    name: 'What one shows and the other does not',
    says: stateSays(
      state.reading,
      roles,
      damage.filter(({ id }) => state.marks.includes(id)),
    ),
    against: 'A state is no date: an old matrix pressed today shows its latest state.',
    overturn: 'Wax that did not take the mark, or a surface lost or not scanned just there.',
  }),
  size: ({ size }, roles) => ({
    name: 'Which is larger',
    says: sizeSays(size.ratio ?? 1, size.sd, roles),
    against: 'Size speaks of copies only where the scale of both scans is stated.',
    overturn: 'A scale checked on a standard; the material of each, since wax and metal shrink as they set.',
  }),
  wear: ({ wear }, roles) => {
    const whole = wear.zones.find(({ zone }) => zone === 'whole');
    return {
      name: 'How much is left of the relief',
      says: `${sentenceCase(roles.subject)} keeps ${percent(whole?.heightKept ?? null)} of the height of ${roles.reference} as it is today.`,
      against: 'Rubbed, not filled, and blurred by the scan can look alike; the zones say which is likelier.',
      overturn: 'It holds only as far as the two are of one matrix.',
    };
  },
};

function stateSays(reading: string, { reference, subject }: Roles, marks: readonly MarkRecord[]): string {
  const named = markList(marks);
  switch (reading) {
    case 'subjectEarlier':
      return `${sentenceCase(subject)} shows the state before ${named} on ${reference}.`;
    case 'subjectLater':
      return `${sentenceCase(subject)} shows ${named}, which ${reference} lacks: a later state.`;
    case 'sameState':
      return `Both show ${named}: no change of state is seen between the two.`;
    default:
      return `The order of states cannot be judged from ${named}.`;
  }
}

function sizeSays(ratio: number, sd: unknown, { reference, subject }: Roles): string {
  const change = 100 * (ratio - 1);
  const sure = typeof sd === 'number' ? ` ± ${(196 * sd).toFixed(1)} % (95 %)` : '';
  if (Math.abs(change) < 0.05) return `${sentenceCase(subject)} is as large as ${reference}${sure}.`;
  const way = change < 0 ? 'smaller' : 'larger';
  return `${sentenceCase(subject)} is ${Math.abs(change).toFixed(1)} %${sure} ${way} than ${reference}.`;
}

/** "the cut at 11 o'clock (M1) and the crack at 4 o'clock (M2)"; at most three are named. */
function markList(marks: readonly MarkRecord[]): string {
  if (marks.length === 0) return 'no mark';
  const named = marks.slice(0, 3).map(({ id, shape, at }) => `the ${shape} at ${clockHour(at.hour)} o’clock (${id})`);
  if (marks.length > 3) named.push(`${marks.length - 3} more`);
  return named.length === 1 ? named[0] : `${named.slice(0, -1).join(', ')} and ${named[named.length - 1]}`;
}

const sentenceCase = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const micrometres = (mm: number | null): string =>
  mm === null ? 'an unknown distance' : `${Math.round(1000 * mm)} µm`;
const percent = (share: number | null): string =>
  share === null ? 'an unknown share' : `${Math.round(100 * share)} %`;
const number = (value: unknown): string => (typeof value === 'number' ? value.toFixed(1) : '–');
