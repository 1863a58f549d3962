import type { FoundMark } from '../marks/index.ts';
import type { Seen, StateReading, StateReason } from '../types.ts';
import { type StateOrder, stateOrder } from './stateOrder.ts';
import { stateDefaults, tellingMarks } from './tellingMarks.ts';

/**
 * Which came first, the subject or the state of the matrix that the reference shows: `stateOrder` of the pair's telling marks.
 *
 * A mark that the reference has and the subject lacks, where the subject is filled, unworn and scanned: the subject is the
 * earlier (or the wax did not take it). One that the subject has and the reference lacks, on sound ground: the later. Only
 * shared ones: the same state, where at least `leastSound` of the face could have shown a change. `soundFraction`: that share;
 * `sizeMm`: the image's longer side.
 */
export function stateReading(
  marks: readonly FoundMark[],
  soundFraction: number,
  sizeMm: number,
  options: typeof stateDefaults = stateDefaults,
): StateReading {
  const telling = tellingMarks(marks, sizeMm, options);
  const order = stateOrder(telling.map((mark) => ({ id: mark.id, first: onReference(mark), second: onSubject(mark) })));
  if (order.code === 'shared' && soundFraction < options.leastSound)
    return cannot({ code: 'tooLittleSound', soundFraction }, order.marks);
  return readingOf(order);
}

/** On the pair's reference. */
export const onReference = (mark: FoundMark): Seen =>
  mark.carriedBy !== 'subject' ? 'present' : mark.otherIsSound ? 'absent' : 'cannotJudge';

/** On the pair's subject. */
export const onSubject = (mark: FoundMark): Seen =>
  mark.carriedBy !== 'reference' ? 'present' : mark.otherIsSound ? 'absent' : 'cannotJudge';

function readingOf(order: StateOrder): StateReading {
  switch (order.code) {
    case 'bothWays':
      return cannot({ code: 'bothWays' }, [...order.onlyFirst, ...order.onlySecond]);
    case 'firstHas':
      return { reading: 'subjectEarlier', marks: order.marks, reason: { code: 'referenceHas' } };
    case 'secondHas':
      return { reading: 'subjectLater', marks: order.marks, reason: { code: 'subjectHas' } };
    case 'shared':
      return { reading: 'sameState', marks: order.marks, reason: { code: 'shared' } };
    default:
      return cannot({ code: order.code }, order.marks);
  }
}

const cannot = (reason: StateReason, marks: readonly string[] = []): StateReading => ({
  reading: 'cannotJudge',
  marks,
  reason,
});

/** Faces of two matrices have no states of one: what distinguishes them is no later cut. */
export const stateOfTwoMatrices: StateReading = cannot({ code: 'twoMatrices' });

/**
 * As long as it is undecided whether both are of one matrix, so is the order of its states; the marks that would tell stay named.
 * That they speak both ways is said all the same: it is a sign of two matrices.
 */
export const stateOfUndecided = (read: StateReading): StateReading =>
  read.reason.code === 'bothWays' ? read : cannot({ code: 'undecided' }, read.marks);

/** Two faces that do not fit have no states that could be compared. */
export const stateWithoutFit: StateReading = cannot({ code: 'noFit' });
