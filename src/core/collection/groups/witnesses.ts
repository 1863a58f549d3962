import type { Known, Link, Thresholds } from './types.ts';
import { Union } from './union.ts';

/** Codes of descent that make two objects one witness of their matrix. */
const oneDescent: ReadonlySet<string> = new Set(['subjectFromReference', 'referenceFromSubject', 'oneDescent']);

/** Whether a verified pair reads as a copy and what it goes back to, or as two copies of one: by size, or by losses that both share. */
export const readsAsDescent = ({ finding, descent }: Link): boolean =>
  finding === 'supported' && descent !== null && oneDescent.has(descent);

/**
 * Objects that count once: two scans of one object, a cast and its parent, as stated; and what a supported pair reads as one descent,
 * from the score on that two links need, since the shared losses are the second ground. Sets of places in `ids`.
 */
export function witnesses(
  ids: readonly string[],
  links: readonly Link[],
  known: readonly Known[],
  { two }: Thresholds,
): number[][] {
  const place = new Map(ids.map((id, k) => [id, k]));
  const union = new Union(ids.length);
  const join = (a: string, b: string): void => {
    const [i, j] = [place.get(a), place.get(b)];
    if (i !== undefined && j !== undefined) union.join(i, j);
  };
  for (const { a, b, relation } of known) if (relation !== 'sidesOf') join(a, b);
  for (const link of links) if (readsAsDescent(link) && (link.score ?? 0) >= two) join(link.a, link.b);
  return union.sets();
}
