import type { Asked } from './asked.ts';

/** What is asked of a pair, in words: it depends on which of the two are negatives. */
export interface Question {
  /** The claim under test, to follow "that". */
  readonly claim: string;
  /** The rival it is weighed against first. */
  readonly rival: string;
  /** The answer in its shortest form, where the claim is supported. */
  readonly plain: string;
}

/** "This matrix or a faithful copy of it" is one phrase: no scan can part the two. */
export const thisOrCopy = 'this matrix or a faithful copy of it';

/** Below this confidence of the two senses nobody is called matrix or impression. */
export const leastNamed = 0.8;

const otherMatrix = 'another matrix of the same pattern';

/** The claim for a negative and a positive, two positives, two negatives, or two of which that is not known. */
export function questionOf({ question, confidence }: Asked): Question {
  const named = confidence >= leastNamed;
  if (question === 'oneMatrix' && named)
    return {
      plain: 'One matrix, or one is a cast of the other',
      claim: 'both were made from one matrix, or one is a cast of the other',
      rival: 'two matrices of the same pattern',
    };
  if (question === 'oneParent' && named)
    return {
      plain: 'One is a copy of the other, or both come from one parent',
      claim: 'one is a copy of the other or both come from one parent',
      rival: 'a matrix of the same pattern cut separately',
    };
  if (question === 'madeFrom')
    return {
      plain: named
        ? 'This matrix or a faithful copy of it'
        : 'One of the two made the other, or a faithful copy of it did',
      claim: named
        ? `the impression or cast was made from ${thisOrCopy}`
        : 'the one was made from the other or from a faithful copy of it',
      rival: otherMatrix,
    };
  return {
    plain: 'One matrix or faithful copies of it',
    claim: 'both go back to one matrix or to faithful copies of it',
    rival: otherMatrix,
  };
}
