import type { FoundMark } from './marks/index.ts';
import type { Judgement } from './types.ts';

export const stateDefaults = {
  /** Share of the face that must be filled, unworn and scanned before "no change" is said. */
  leastSound: 0.6,
  /** Marks smaller than this say nothing of the die's state, mm³. */
  leastVolumeMm3: 0.3,
  /** Nor do cuts and cracks shorter than this share of the face: short ones may be strokes of letters misplaced. */
  leastLength: 0.12,
};

/** Shapes that a die acquires once and keeps. */
const lines = new Set<FoundMark['shape']>(['cut', 'crack']);
const ofTheDie = new Set<FoundMark['shape']>(['cut', 'crack', 'recut', 'region']);

/**
 * Which came first, the subject or the state of the die that the reference shows.
 *
 * A raised mark of the die that the reference has and the subject lacks, where the subject is filled, unworn
 * and scanned: the subject is the earlier (or the wax did not take it). One that the subject has and the
 * reference lacks: the later. Marks both ways contradict one another: cannot judge. None, or only shared ones: the same
 * state, if enough of the face could have shown a change. `soundFraction`: share of the face that is sound; `sizeMm`: its long side.
 */
export function stateReading(
  marks: readonly FoundMark[],
  soundFraction: number,
  sizeMm: number,
  options = stateDefaults,
): Judgement['state'] {
  const telling = marks.filter(
    (mark) =>
      ofTheDie.has(mark.shape) &&
      mark.raised &&
      mark.volumeMm3 >= options.leastVolumeMm3 &&
      (!lines.has(mark.shape) || mark.lengthMm >= options.leastLength * sizeMm),
  );
  const earlier = telling.filter((mark) => mark.carriedBy === 'reference' && mark.otherIsSound);
  const later = telling.filter((mark) => mark.carriedBy === 'subject');
  const shared = telling.filter((mark) => mark.carriedBy === 'both');
  const ids = (list: readonly FoundMark[]): string[] => list.map((mark) => mark.id);
  if (earlier.length > 0 && later.length > 0) return { reading: 'cannotJudge', marks: ids([...earlier, ...later]) };
  if (earlier.length > 0) return { reading: 'subjectEarlier', marks: ids(earlier) };
  if (later.length > 0) return { reading: 'subjectLater', marks: ids(later) };
  // A mark of the reference that the subject could hardly show says neither "earlier" nor "the same".
  const hidden = telling.filter((mark) => mark.carriedBy === 'reference' && !mark.otherIsSound);
  if (hidden.length > 0) return { reading: 'cannotJudge', marks: ids(hidden) };
  if (soundFraction < options.leastSound) return { reading: 'cannotJudge', marks: ids(shared) };
  return { reading: 'sameState', marks: ids(shared) };
}
