import type { FoundMark } from '../marks/index.ts';
import type { StateName } from '../types.ts';

/** The reading, the marks it rests on, and its ground in a sentence. */
export interface StateReading {
  readonly reading: StateName;
  readonly marks: readonly string[];
  readonly words: string;
}

export const stateDefaults = {
  /** Share of the face that must be filled, unworn and scanned before "no change" is said. */
  leastSound: 0.4,
  /** Marks smaller than this say nothing of the die's state, mm³. */
  leastVolumeMm3: 0.3,
  /** Nor do cuts and cracks shorter than this share of the face: short ones may be strokes of letters misplaced. */
  leastLength: 0.12,
  /** Up to this share they must also be plainly a cut or a crack, by this lead of their section: a chip beside a form can look like a line. */
  plainLength: 0.25,
  plainLead: 1.2,
  /** A line that both carry is taken for the die's, and not for strokes in a row, from this share of the face. */
  leastSharedLength: 0.6,
};

/** Shapes that a die acquires once and keeps. */
const lines = new Set<FoundMark['shape']>(['cut', 'crack', 'scratch', 'line']);
const ofTheDie = new Set<FoundMark['shape']>(['cut', 'crack', 'scratch', 'line', 'recut', 'region']);

/**
 * Which came first, the subject or the state of the die that the reference shows.
 *
 * A raised mark of the die that the reference has and the subject lacks, where the subject is filled, unworn
 * and scanned: the subject is the earlier (or the wax did not take it). One that the subject has and the
 * reference lacks, on sound ground: the later. Marks both ways contradict one another: cannot judge. Only shared ones: the
 * same state. No mark at all: cannot judge, since a fine crack or a letter gone over can escape the scan; so too where
 * less than `leastSound` of the face could have shown a change. `soundFraction`: that share; `sizeMm`: the face's long side.
 */
export function stateReading(
  marks: readonly FoundMark[],
  soundFraction: number,
  sizeMm: number,
  options = stateDefaults,
): StateReading {
  const telling = marks.filter(
    (mark) =>
      ofTheDie.has(mark.shape) &&
      // A letter that the subject shows lower may have been clogged with dirt in the die when it was made.
      !(mark.shape === 'recut' && mark.carriedBy === 'reference') &&
      mark.raised &&
      mark.volumeMm3 >= options.leastVolumeMm3 &&
      (!lines.has(mark.shape) ||
        (mark.lengthMm >= sizeMm * (mark.carriedBy === 'both' ? options.leastSharedLength : options.leastLength) &&
          (mark.lengthMm >= sizeMm * options.plainLength || isPlain(mark, options)))),
  );
  const by = (carriedBy: FoundMark['carriedBy'], sound: boolean): FoundMark[] =>
    telling.filter((mark) => mark.carriedBy === carriedBy && mark.otherIsSound === sound);
  const earlier = by('reference', true);
  const later = by('subject', true);
  const shared = telling.filter((mark) => mark.carriedBy === 'both');
  if (earlier.length > 0 && later.length > 0)
    return cannot([...earlier, ...later], 'Marks speak both ways: two dies, a mended die, or a mark misread.');
  if (earlier.length > 0)
    return say('subjectEarlier', earlier, 'The reference has what the subject lacks on sound ground.');
  if (later.length > 0) return say('subjectLater', later, 'The subject has what the reference lacks.');
  // A mark that the subject could hardly show says neither "earlier" nor "the same"; one on its own broken ground is the break's.
  const hidden = by('reference', false);
  if (hidden.length > 0)
    return cannot(hidden, 'The reference has a mark where the subject is worn, lost, not filled or not scanned.');
  if (shared.length === 0)
    return cannot([], 'No mark of the die is seen on either, and a fine one may escape the scans.');
  if (soundFraction < options.leastSound)
    return cannot(shared, `Only ${Math.round(100 * soundFraction)} % of the face could show a change.`);
  return say('sameState', shared, 'Both carry the same marks of the die, and neither has one that the other lacks.');
}

const isPlain = ({ section }: FoundMark, { plainLead }: typeof stateDefaults): boolean =>
  section !== undefined && section.verdict !== 'cannotTell' && section.lead >= plainLead;

const ids = (marks: readonly FoundMark[]): string[] => marks.map((mark) => mark.id);
const say = (reading: StateReading['reading'], marks: readonly FoundMark[], words: string): StateReading => ({
  reading,
  marks: ids(marks),
  words,
});
const cannot = (marks: readonly FoundMark[], words: string): StateReading => say('cannotJudge', marks, words);

/** Faces of two matrices have no states of one: what distinguishes them is no later cut. */
export const stateOfTwoMatrices: StateReading = cannot(
  [],
  'The two are read as of different matrices: their states do not compare.',
);
