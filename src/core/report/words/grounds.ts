import type { Mark } from '../../condition/index.ts';
import { capital } from '../../scan/index.ts';
import { cellsApart, type GroundCode, type GroundFact, groundsOf, heightKeptIn, placesOutside } from '../grounds.ts';
import type { Comparison } from '../input.ts';
import { uprightOf } from '../upright.ts';
import { brokenAlikeTold } from './brokenAlike.ts';
import { howMeasured } from './groundsMeasured.ts';
import { byName, namesOf } from './names.ts';
import { micrometres, percentWords } from './numbers.ts';
import { namedMark } from './places.ts';
import { markWords } from './shapes.ts';
import { sizeWords } from './size.ts';
import { strikeWords } from './strike.ts';

/** A ground as it is told: what is seen, what speaks against it, what would overturn it, and how it was measured. */
export interface Ground extends Omit<GroundFact, 'gates' | 'marks'> {
  readonly title: string;
  /** The number that says most, for a list. */
  readonly figure: string;
  readonly says: string;
  readonly against: string;
  readonly overturn: string;
  readonly how: string;
  readonly marks: readonly string[];
}

/** The grounds of a comparison in the order of their weight, in words. */
export const groundsInWords = (comparison: Comparison): Ground[] =>
  groundsOf(comparison).map((fact) => ({
    ...{ code: fact.code, speaks: fact.speaks, decided: fact.decided, marks: fact.marks.map(({ id }) => id) },
    ...told[fact.code](comparison, fact),
    how: howMeasured(fact),
  }));

type Told = Pick<Ground, 'title' | 'figure' | 'says' | 'against' | 'overturn'>;

const times = (count: number, one: string, many: string): string => (count === 1 ? `one ${one}` : `${count} ${many}`);

const named = (comparison: Comparison, marks: readonly Mark[]): string => {
  const { turnDeg } = uprightOf(comparison);
  return listed(marks.slice(0, 3).map((mark) => namedMark(mark, turnDeg)));
};

/** Two cuts that lie alike are named once. */
const listed = (all: readonly string[]): string => {
  const words = [...new Set(all)];
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
};

const told: Readonly<Record<GroundCode, (comparison: Comparison, fact: GroundFact) => Told>> = {
  places: (comparison, { speaks }) => {
    const { constellation } = comparison.judgement;
    const count = constellation?.landmarks.length ?? 0;
    const off = placesOutside(comparison);
    const half = micrometres(constellation?.smoothMm ?? Number.NaN);
    return {
      title:
        speaks === 'for'
          ? 'Letters and ornaments lie in the same places'
          : speaks === 'against'
            ? 'Letters and ornaments lie in other places'
            : 'The places of letters and ornaments do not decide',
      figure: `${count - off} of ${count}`,
      says: `${count} places were found on both. Half of them lie within ${half} of where all the others put them; ${count - off} within their own error, ${off} outside it. A hand that cuts the design again misses by 30 µm to 1 mm, letter by letter; wax from one matrix only flows smoothly.`,
      against:
        speaks === 'against'
          ? `${capital(times(count - off, 'place lies', 'places lie'))} within ${count - off === 1 ? 'its' : 'their'} error, as on one matrix. Rubbed or clogged letters shift as well.`
          : off === 0
            ? 'No place speaks against it; but a cast of the matrix, or a matrix recast from an impression, keeps all places as well.'
            : `${capital(times(off, 'place lies', 'places lie'))} outside ${off === 1 ? 'its' : 'their'} error. Rubbed or clogged letters shift as well.`,
      overturn:
        speaks === 'for'
          ? 'Places that scatter beyond their errors on a finer scan, or on an impression that is better preserved.'
          : speaks === 'against'
            ? 'A second scan on which the same letters lie in place: then the scan, a repair or a flow of the wax moved them.'
            : 'A finer scan, or an impression with more of the legend: more places, and smaller errors.',
    };
  },
  missing: ({ judgement: { constellation } }) => {
    const unseen = constellation?.unseen.length ?? 0;
    const all = unseen + (constellation?.landmarks.length ?? 0);
    return {
      title: 'Letters and ornaments without a counterpart',
      figure: `${unseen} of ${all}`,
      says: `At ${times(unseen, 'place', 'places')} the second face has relief of its own and not the one that the first has there. Where that is a row of letters, the legends differ: the other one shows through as a ghost among the depth differences.`,
      against:
        'An accident, a repair or a lip of wax takes a letter away as well; a legend that was cut anew takes away many in a row.',
      overturn: 'Readings of both legends that agree, letter by letter, where the counterparts are missing.',
    };
  },
  legend: (comparison, { gates: [over] }) => {
    const count = comparison.judgement.constellation?.landmarks.length ?? 0;
    const off = placesOutside(comparison);
    const powers = Math.max(1, Math.round(-(over?.value ?? 0)));
    return {
      title: 'The motif lies in its places and the legend does not',
      figure: `${off} of ${count}`,
      says: `${off} of ${times(count, 'place', 'places')} lie outside their error, and most of these round the motif, not on it. A legend that was cut anew on this matrix makes that likelier by ${times(powers, 'power', 'powers')} of ten than one matrix as it is; a common model of the motif would look the same.`,
      against:
        'A lip, a break or bad filling that spoiled nearly every letter and spared the motif looks like this as well.',
      overturn: 'Readings of both legends that agree, letter by letter.',
    };
  },
  cells: (comparison, { speaks }) => {
    const { compared, congruent } = comparison.judgement.cells;
    const { shifted, unlike } = cellsApart(comparison);
    const apart = compared - congruent;
    return {
      title:
        speaks === 'for'
          ? 'The relief agrees cell by cell'
          : speaks === 'against'
            ? 'The relief does not agree cell by cell'
            : 'Part of the relief agrees cell by cell',
      figure: `${congruent} of ${compared}`,
      says: `The face was laid out in ${compared} cells, and each was looked for by itself. ${congruent} lie where they should and look alike.`,
      against:
        apart === 0
          ? 'No cell disagrees. Cells are counted beside the finding and not weighed in it.'
          : `${capital(times(apart, 'cell does', 'cells do'))} not agree: ${listed([...(unlike > 0 ? [`${unlike} look too different, as worn, filled or lost ground does`] : []), ...(shifted > 0 ? [`${shifted} lie shifted or turned`] : [])])}. Cells are counted beside the finding and not weighed in it.`,
      overturn:
        'Congruent cells that lie together only in one part of the face, while sound ground elsewhere disagrees.',
    };
  },
  state: (comparison, { marks }) => {
    const [a, b] = namesOf(comparison);
    const { reading } = comparison.judgement.state;
    const what = named(comparison, marks);
    const before = reading === 'subjectEarlier';
    return {
      title: stateTitle(comparison, what),
      figure: marks.length === 1 ? markWords[marks[0].shape] : `${marks.length} marks`,
      says:
        reading === 'sameState'
          ? `Both show ${what}.`
          : `${capital(before ? a : b)} shows ${what}; ${before ? b : a} does not, though its surface is sound there.`,
      against: 'A shallow mark may not have been filled by the wax, or was dressed away from it. A state is no date.',
      overturn: `The mark found on ${reading === 'sameState' ? 'one of the two alone' : before ? b : a}${reading === 'sameState' ? '' : ' under another light or a finer scan'}.`,
    };
  },
  shared: (comparison, { marks }) => {
    const what = named(comparison, marks);
    return {
      title: 'An accident that both share',
      figure: `${marks.length}`,
      says: `Both carry ${what}. No engraver means such a mark, and a copyist seldom repeats it.`,
      against:
        'A cast repeats every accident of what it was cast from, so this does not part a matrix from its copies. It is not weighed in the score.',
      overturn: 'Sections across the mark on both that have another course, depth or flank.',
    };
  },
  brokenAlike: ({ judgement }) => brokenAlikeTold(judgement.descentBy),
  size: (comparison, { speaks }) => {
    const { difference } = comparison;
    const [a, b] = namesOf(comparison);
    const { ratio = Number.NaN, sd = Number.NaN, favours = 'neither', reading = [] } = difference?.size ?? {};
    const grown = comparison.judgement.limits.some(({ code }) => code === 'size');
    const percent = Math.abs(100 * (ratio - 1)).toFixed(1);
    const within = `± ${(100 * sd).toFixed(1)} %`;
    const compared =
      percent === '0.0'
        ? `as large as ${a}, ${within}`
        : `${percent} ${within} ${ratio < 1 ? 'smaller' : 'larger'} than ${a}`;
    return {
      title:
        speaks === 'against'
          ? 'The size speaks for a copy between them'
          : favours === 'direct'
            ? 'The size is that of a direct impression'
            : 'The size does not decide',
      figure: `${ratio < 1 ? '−' : '+'}${percent} ${within}`,
      says: `${capital(b)} is ${compared}. ${
        grown
          ? 'Neither wax nor plaster grows so much: if both scans are true to scale, the negative is a copy, cast from the positive or from one like it.'
          : 'Wax and metal shrink as they cool and plaster grows a little, so every step of casting leaves its share.'
      }`,
      against: grown
        ? 'The scales of the two scans are not both stated: one that is off by as much would show the same.'
        : reading.length > 1
          ? byName(reading.slice(1).map(sizeWords).join(' '), [a, b])
          : 'The scale of a scan is seldom known to better than 0.3 %.',
      overturn: 'Scales of both scans that are stated, and known better than the difference.',
    };
  },
  wear: (comparison) => {
    const { wear } = comparison.judgement;
    const [a, b] = namesOf(comparison);
    const told = heightKeptIn(wear.zones);
    const where = told?.zone === 'legend' ? 'Along the legend' : 'Over the whole face';
    const share = told && `${Math.round(100 * told.heightKept)} ± ${Math.round(100 * told.heightKeptSd)} %`;
    return {
      title: 'How much of the relief is left',
      figure: share ?? '–',
      says: `${where} ${b} keeps ${share ?? 'an unknown share'} of the height that ${a} has today.`,
      against:
        'Wax that did not fill the matrix, soft wax and translucent wax look like wear; a matrix that was worn or clogged since, or is itself a cast, makes its impression look sharper.',
      overturn: 'Another impression of the same matrix that is higher in the same places.',
    };
  },
  noDesign: ({ judgement: { gates } }) => {
    const clear = gates.find(({ code }) => code === 'clear');
    const oneDesign = gates.find(({ code }) => code === 'oneDesign');
    return {
      title: 'Both faces are clear, and nothing corresponds',
      figure: oneDesign
        ? `1 : ${(1 / Math.max(oneDesign.value, 1e-3)).toFixed(0)}`
        : clear
          ? `${clear.value.toFixed(0)} σ`
          : '–',
      says: oneDesign
        ? `At some turns the two have little of their faces in common; at most of them the other’s design would have been found. None was: what all turns together show would be at least ${(1 / oneDesign.limit).toFixed(0)} times rarer if the two had one design.`
        : 'Each face is sharp and whole enough that the other’s design would have been found on it at every turn and size that was tried. None was.',
      against: 'Two sides of one seal have two designs, and so have two seals of one person.',
      overturn: 'The same legend or motif found on both by eye: then mark its places by hand, in Fit.',
    };
  },
  overlap: ({ fit }) => ({
    title: 'Too little of the face is there on both',
    figure: percentWords(fit.overlap),
    says: `Only ${percentWords(fit.overlap)} of the smaller face could be laid on the other. The rest is lost, not filled or not scanned.`,
    against: 'What is left may still agree; it is shown with the grounds below.',
    overturn: 'Another impression, or another scan, on which more is preserved.',
  }),
  turns: ({ fit }) => ({
    title: 'Another turn fits nearly as well',
    figure: fit.rivalTurns.length > 0 ? `${Math.round(fit.rivalTurns[0].turnDeg)}°` : '–',
    says: `Turned by ${fit.rivalTurns.length > 0 ? Math.round(fit.rivalTurns[0].turnDeg) : '–'}° the two agree by ${fit.rivalScore.toFixed(2)}, as they lie by ${fit.score.toFixed(2)}. A design that repeats itself round the middle does that, and so do two that do not belong together.`,
    against: 'A worn legend leaves only the repeating motif to tell the turn.',
    overturn: 'A fit from the other turn, in Fit, that places more of the letters.',
  }),
  mirrored: () => ({
    title: 'Only a mirror image fits',
    figure: 'mirrored',
    says: 'The two lie on one another only when one of them is reflected, which no wax and no cast does.',
    against: 'The way the file was exported can mirror it: axes exchanged, or one of them turned round.',
    overturn: 'The scan exported again with its axes as they are.',
  }),
  struckTwice: ({ judgement: { secondStrike } }) => ({
    title: 'The wax was struck twice, or slipped',
    figure: 'twice',
    says: secondStrike ? strikeWords(secondStrike) : 'A second strike or a slip is seen.',
    against: 'Letters that are doubled lie in two places: that looks like another matrix.',
    overturn: 'Another impression of the same matrix that was struck once.',
  }),
  noFit: () => ({
    title: 'The two were not laid on one another',
    figure: 'no fit',
    says: 'At no turn and no size that was tried do the two agree better than chance.',
    against: 'A pair too worn, too broken or shown from a wrong side looks like this as well as two unrelated seals.',
    overturn: 'The same three places marked on both, in Fit: the pair is then measured from there.',
  }),
};

function stateTitle(comparison: Comparison, what: string): string {
  const [, b] = namesOf(comparison);
  const { reading } = comparison.judgement.state;
  if (reading === 'sameState') return `Both show the same state: ${what}`;
  return `${capital(b)} shows the state ${reading === 'subjectEarlier' ? 'before' : 'with'} ${what}`;
}

/** The state as it joins the plain answer; empty where none can be read. */
export function stateSentence(comparison: Comparison): string {
  const { state, damage, finding } = comparison.judgement;
  if (state.reading === 'cannotJudge' || finding === 'against' || finding === 'otherDesign') return '';
  const marks = damage.filter(({ id }) => state.marks.includes(id));
  return marks.length === 0 ? '' : `${stateTitle(comparison, named(comparison, marks))}.`;
}
