import type { Together } from '../../../src/core/condition/index.ts';
import type { StateReading } from '../../../src/core/condition/types.ts';

/** Earlier than, the same as and later than the reference; cannot judge binds nothing. */
const ranks = { subjectEarlier: -1, sameState: 0, subjectLater: 1, cannotJudge: null } as const;

/**
 * Where what is joined says otherwise than the pairs it was joined from. By the pairs, of two subjects on different sides of the
 * reference the one on the earlier side is the earlier, and two in the reference's own state are of one state; neither may
 * stand in a contradiction or in the opposite order. Each subject against the reference must be its pair's reading.
 */
export function contradictionsOf(joined: Together, pairs: readonly StateReading[]): string[] {
  const rank = (k: number) => ranks[pairs[k].reading];
  const bad: string[] = [];
  joined.againstReference.forEach(({ subject, reading, reason, ownMarks }, k) => {
    const own = pairs[k];
    if (subject !== k || reading !== own.reading || reason !== own.reason || ownMarks !== own.marks)
      bad.push(`${k} against the reference: ${reading}, in its pair ${own.reading}`);
  });
  if (joined.againstReference.length !== pairs.length) bad.push('a pair is missing');
  for (const { earlier, later } of joined.order) {
    const [a, b] = [rank(earlier), rank(later)];
    if (a !== null && b !== null && (a > b || (a === 0 && b === 0))) bad.push(`${earlier} before ${later}`);
  }
  for (const { one, two } of joined.contradictions) {
    if (one === null) {
      if (pairs[two].reason.code !== 'bothWays') bad.push(`${two} contradicts the reference`);
      continue;
    }
    const [a, b] = [rank(one), rank(two)];
    if (a !== null && b !== null && (a !== b || a === 0)) bad.push(`${one} contradicts ${two}`);
  }
  return bad;
}
