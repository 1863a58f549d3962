import type { ComparisonRecord } from './record/schema.ts';

/** What the two scans are to one another. */
export type Pairing = 'negativeAndPositive' | 'twoPositives' | 'twoNegatives';

export function pairingOf({ reference, subject }: ComparisonRecord): Pairing {
  if (reference.sense !== subject.sense) return 'negativeAndPositive';
  return reference.sense === 'relief' ? 'twoPositives' : 'twoNegatives';
}

/** The question that the comparison answers; "this matrix or a faithful copy of it" is always one phrase. */
export function questionOf(record: ComparisonRecord): string {
  const { reference, subject } = record;
  const negative = reference.sense === 'intaglio' ? reference.kind : subject.kind;
  const positive = reference.sense === 'relief' ? reference.kind : subject.kind;
  switch (pairingOf(record)) {
    case 'negativeAndPositive':
      return `Was this ${positive} made from this ${negative} or a faithful copy of it?`;
    case 'twoPositives':
      return reference.kind === subject.kind
        ? `Were these two ${subject.kind}s made from one matrix?`
        : `Were this ${reference.kind} and this ${subject.kind} made from one matrix?`;
    case 'twoNegatives':
      return `Is one of these two a copy of the other, or both of one parent?`;
  }
}

type HypothesisId = ComparisonRecord['judge']['hypotheses'][number]['id'];

const hypotheses: Record<Pairing, Record<HypothesisId, string>> = {
  negativeAndPositive: {
    sameMatrix: 'made from this matrix or a faithful copy of it',
    copy: 'made from a copy or parent of it that differs (cast copy)',
    otherMatrix: 'made from another matrix of the same pattern',
    unrelated: 'unrelated',
  },
  twoPositives: {
    sameMatrix: 'both made from one matrix',
    copy: 'one is a cast of the other',
    otherMatrix: 'made from two matrices of the same pattern',
    unrelated: 'unrelated',
  },
  twoNegatives: {
    sameMatrix: 'one is a copy of the other, or both of one parent',
    copy: 'a copy at several removes',
    otherMatrix: 'two matrices cut after the same pattern',
    unrelated: 'unrelated',
  },
};

export const hypothesisPhrase = (id: string, pairing: Pairing): string =>
  hypotheses[pairing][id as HypothesisId] ?? (id === 'neither' ? 'none of them' : id);

export const modelPhrase = { rigid: 'rigid', oneScale: 'one scale', smoothWarp: 'smooth warp' } as const;

export const statePhrase: Record<string, string> = {
  sharp: 'sharp',
  rubbed: 'rubbed',
  flattened: 'flattened',
  notFilled: 'not filled',
  clogged: 'clogged',
  lost: 'lost',
  added: 'added',
  blurred: 'blurred by the scan',
  cannotJudge: 'cannot judge',
};

/** How the states of the two stand to one another. */
export function stateSentence({ reading, marks }: ComparisonRecord['judge']['state']): string {
  const named = marks.length > 0 ? ` (${marks.join(', ')})` : '';
  switch (reading) {
    case 'sameState':
      return `The marks show no change of state between the two${named}.`;
    case 'subjectEarlier':
      return `The subject reads as earlier than marks on the reference${named}.`;
    case 'subjectLater':
      return `The subject reads as later than the reference as it is${named}.`;
    case 'cannotJudge':
      return 'The order of states cannot be judged.';
  }
}

/** Clock hour as it is said: 1.77 hours is nearest to 2, and 0 is 12. */
export const clockHour = (hour: number): number => ((Math.round(hour) + 11) % 12) + 1;

/** True where a file's name says that it is a simulated sample. */
export const saysSimulated = (name: string): boolean => /simulated/i.test(name);
