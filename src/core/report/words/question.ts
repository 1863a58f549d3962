import type { ClaimCode } from '../../judge/index.ts';
import type { ComparisonRecord } from '../record/schema.ts';

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

/** A claim under test, to follow "that"; the rival it is weighed against first; and the answer where it is supported. */
export interface ClaimWords {
  readonly claim: string;
  readonly rival: string;
  readonly plain: string;
}

/** "This matrix or a faithful copy of it" is one phrase: no scan can part the two. */
export const thisOrCopy = 'this matrix or a faithful copy of it';

const otherMatrix = 'another matrix of the same pattern';

export const claimWords: Readonly<Record<ClaimCode, ClaimWords>> = {
  madeFrom: {
    plain: 'This matrix or a faithful copy of it',
    claim: `the impression or cast was made from ${thisOrCopy}`,
    rival: otherMatrix,
  },
  oneMatrix: {
    plain: 'One matrix, or one is a cast of the other',
    claim: 'both were made from one matrix, or one is a cast of the other',
    rival: 'two matrices of the same pattern',
  },
  oneParent: {
    plain: 'One is a copy of the other, or both come from one parent',
    claim: 'one is a copy of the other or both come from one parent',
    rival: 'a matrix of the same pattern cut separately',
  },
  oneFromOther: {
    plain: 'One of the two made the other, or a faithful copy of it did',
    claim: 'the one was made from the other or from a faithful copy of it',
    rival: otherMatrix,
  },
  oneOrigin: {
    plain: 'One matrix or faithful copies of it',
    claim: 'both go back to one matrix or to faithful copies of it',
    rival: otherMatrix,
  },
};
