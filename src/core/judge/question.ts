import type { Asked } from './asked.ts';

/**
 * What is claimed of a pair: a positive made from a negative; two positives of one matrix; two negatives of one parent;
 * one made from the other, without saying which; or that both go back to one matrix.
 */
export type ClaimCode = 'madeFrom' | 'oneMatrix' | 'oneParent' | 'oneFromOther' | 'oneOrigin';

/** Below this confidence of the two senses nobody is called matrix or impression. */
export const leastNamed = 0.8;

/** The claim for a negative and a positive, two positives, two negatives, or two of which that is not known. */
export function claimOf({ question, confidence }: Asked): ClaimCode {
  if (question !== null && confidence >= leastNamed) return question;
  return question === 'madeFrom' ? 'oneFromOther' : 'oneOrigin';
}
