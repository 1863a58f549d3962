import { leastNamed } from '../../judge/index.ts';
import type { ComparisonRecord } from '../record/schema.ts';

/** What the two objects are called in sentences: by what they are, never by the seat they took. */
export interface Roles {
  readonly reference: string;
  readonly subject: string;
}

/** "the matrix" and "the impression"; two of one kind are "the first" and "the second"; unsure ones "the one" and "the other". */
export function rolesOf({ reference, subject, judge }: ComparisonRecord): Roles {
  if ((judge.rolesConfidence ?? 0) < leastNamed) return { reference: 'the one', subject: 'the other' };
  if (reference.kind !== subject.kind) return { reference: `the ${reference.kind}`, subject: `the ${subject.kind}` };
  return { reference: `the first ${reference.kind}`, subject: `the second ${subject.kind}` };
}
