import { leastNamed } from '../../judge/index.ts';
import { capital } from '../../scan/index.ts';
import type { Comparison } from '../input.ts';

interface Named {
  readonly reference: Pick<Comparison['reference'], 'kind'>;
  readonly subject: Pick<Comparison['subject'], 'kind'>;
  readonly judgement: Pick<Comparison['judgement'], 'rolesConfidence'>;
}

/** How the two are called: by what they are; two of one kind are first and second, unsure ones "the one" and "the other". */
export function namesOf({ reference, subject, judgement }: Named): readonly [string, string] {
  if (judgement.rolesConfidence < leastNamed) return ['the one', 'the other'];
  if (reference.kind === subject.kind) return [`the first ${reference.kind}`, `the second ${subject.kind}`];
  return [`the ${reference.kind}`, `the ${subject.kind}`];
}

/** Sentences that speak of seats, of what the two are. */
export const byName = (words: string, [reference, subject]: readonly [string, string]): string =>
  words
    .replace(
      /(^|[.!?] )The (reference|subject)/g,
      (_, before, seat) => `${before}${capital(seat === 'reference' ? reference : subject)}`,
    )
    .replace(/(?:the )?\breference\b/g, reference)
    .replace(/(?:the )?\bsubject\b/g, subject);
