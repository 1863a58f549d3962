import type { DescentCode } from '../../judge/index.ts';
import type { Kinship } from './composite.ts';

/** What the descent of a pair says of two witnesses; empty where they are independent or nothing tells. */
export function kinshipOf(reference: string, subject: string, descent: DescentCode | null | undefined): Kinship[] {
  const pair = { one: reference, two: subject };
  switch (descent) {
    case 'subjectFromReference':
      return [{ ...pair, copy: subject }];
    case 'referenceFromSubject':
      return [{ ...pair, copy: reference }];
    case 'oneDescent':
      return [{ ...pair, copy: null }];
    default:
      return [];
  }
}
