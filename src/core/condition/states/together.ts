import type { StateName, StateReason } from '../types.ts';
import { type Contribution, composite } from './composite.ts';
import { type JoinedMark, joinMarks, type SharedMark, type SubjectFindings } from './joinMarks.ts';
import { stateOrder } from './stateOrder.ts';

/**
 * What a sunk mark that several subjects share can come from: dirt, burr or solder that stood on the matrix when each of them
 * was made, or one impression from which they descend.
 */
export type AccidentCause = 'onTheMatrix' | 'oneImpression';

/** What several subjects say together about one reference. Subjects by their place in the list. */
export interface Together {
  readonly marks: readonly SharedMark[];
  readonly order: ReadonlyArray<{
    readonly earlier: number;
    readonly later: number;
    readonly marks: readonly string[];
  }>;
  /** Each subject against the reference: the reading of its own pair, its marks under their names here and in the pair's record. */
  readonly againstReference: ReadonlyArray<{
    readonly subject: number;
    readonly reading: StateName;
    readonly reason: StateReason;
    readonly marks: readonly string[];
    readonly ownMarks: readonly string[];
  }>;
  /** Two objects that each have what the other lacks; `one` null stands for the reference. */
  readonly contradictions: ReadonlyArray<{
    readonly one: number | null;
    readonly two: number;
    readonly onlyOne: readonly string[];
    readonly onlyTwo: readonly string[];
  }>;
  readonly sharedAccidents: ReadonlyArray<{
    readonly subjects: readonly number[];
    readonly mark: string;
    /** In no order of likelihood. */
    readonly causes: readonly AccidentCause[];
  }>;
  readonly composite: readonly Contribution[];
}

/**
 * Marks × subjects over one reference, and what follows from it. Against the reference each subject stands as its own pair's
 * reading says; two subjects are ordered by the same rule (`stateOrder`) from the same telling marks, so that joining never
 * contradicts the pairs; one whose own pair is undecided is ordered with none. Sunk marks order nothing. The composite takes every place from the subject that is soundest there.
 * Dates are no input.
 */
export function together(subjects: readonly SubjectFindings[]): Together {
  const marks = joinMarks(subjects);
  const orders = subjectPairs(subjects).map(([one, two]) => ({ one, two, order: orderOf(marks, one, two) }));
  return {
    marks: marks.map(({ ownIds: _, ...mark }) => mark),
    order: orders.flatMap(({ one, two, order }) => {
      if (order.code === 'firstHas') return [{ earlier: two, later: one, marks: order.marks }];
      return order.code === 'secondHas' ? [{ earlier: one, later: two, marks: order.marks }] : [];
    }),
    againstReference: subjects.map(({ state }, subject) => ({
      subject,
      reading: state.reading,
      reason: state.reason,
      marks: named(marks, subject, state.marks),
      ownMarks: state.marks,
    })),
    contradictions: [
      ...subjects.flatMap((each, two) => contradictionOfPair(marks, each, two)),
      ...orders.flatMap(({ one, two, order }) =>
        order.code === 'bothWays' ? [{ one, two, onlyOne: order.onlyFirst, onlyTwo: order.onlySecond }] : [],
      ),
    ],
    sharedAccidents: sharedAccidents(marks, subjects),
    composite: composite(subjects),
  };
}

/** Two and two of those whose own pair is decided: one that is perhaps of another matrix has no place in the order of its states. */
const subjectPairs = (subjects: readonly SubjectFindings[]): [number, number][] =>
  subjects
    .flatMap((_, two) => subjects.slice(0, two).map((__, one): [number, number] => [one, two]))
    .filter((pair) => pair.every((k) => subjects[k].state.reason.code !== 'undecided'));

const orderOf = (marks: readonly JoinedMark[], one: number, two: number): ReturnType<typeof stateOrder> =>
  stateOrder(marks.filter(({ tells }) => tells).map(({ id, seen }) => ({ id, first: seen[one], second: seen[two] })));

/** Marks of a subject's own record under their joined names. */
const named = (marks: readonly JoinedMark[], subject: number, own: readonly string[]): string[] =>
  own.flatMap((id) => marks.filter(({ ownIds }) => ownIds.get(subject) === id).map((mark) => mark.id));

/** A pair whose own marks speak both ways. */
function contradictionOfPair(
  marks: readonly JoinedMark[],
  { state, marks: own, fitted }: SubjectFindings,
  two: number,
): Together['contradictions'] {
  if (state.reason.code !== 'bothWays' || !fitted) return [];
  const of = (carrier: 'reference' | 'subject'): string[] =>
    named(
      marks,
      two,
      state.marks.filter((id) => own.some((mark) => mark.id === id && mark.carriedBy === carrier)),
    );
  return [{ one: null, two, onlyOne: of('reference'), onlyTwo: of('subject') }];
}

function sharedAccidents(
  marks: readonly JoinedMark[],
  subjects: readonly SubjectFindings[],
): Together['sharedAccidents'] {
  return marks.flatMap((mark) => {
    const on = subjects.map((_, k) => k).filter((k) => mark.seen[k] === 'present');
    if (mark.raised || mark.onReference || on.length < 2) return [];
    return [{ subjects: on, mark: mark.id, causes: ['onTheMatrix', 'oneImpression'] as const }];
  });
}
