import type { Sense } from '../face/index.ts';

/** What is asked of a pair: it depends on which of the two are negatives. */
export interface Question {
  /** The claim under test, to follow "that". */
  readonly claim: string;
  /** The rival it is weighed against first. */
  readonly rival: string;
}

/** "This matrix or a faithful copy of it" is one phrase: no scan can part the two. */
export const thisOrCopy = 'this matrix or a faithful copy of it';

/** The claim for a negative and a positive, two positives, or two negatives. */
export function questionOf(reference: Sense, subject: Sense): Question {
  if (reference === 'relief' && subject === 'relief')
    return {
      claim: 'both were made from one matrix, or one is a cast of the other',
      rival: 'two matrices of the same pattern',
    };
  if (reference === 'intaglio' && subject === 'intaglio')
    return {
      claim: 'one is a copy of the other or both come from one parent',
      rival: 'a matrix of the same pattern cut separately',
    };
  const subjectIsMade = reference === 'intaglio';
  return {
    claim: subjectIsMade ? `the subject was made from ${thisOrCopy}` : `the reference was made from ${thisOrCopy}`,
    rival: 'another matrix of the same pattern',
  };
}
