import type { DescentCode } from '../../judge/index.ts';
import type { PairState } from './oneState.ts';
import type { Kinship, WitnessStanding } from './standing.ts';

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

/** What the further witnesses are to one another: copies, and their states. */
export interface Among {
  readonly kin: readonly Kinship[];
  readonly states: readonly PairState[];
}

/** What a judgement of a pair says of it that a composite has to know. */
export interface JudgedPair {
  readonly descent: Parameters<typeof kinshipOf>[2];
  readonly state: { readonly reading: WitnessStanding['state'] };
}

interface Placed {
  readonly witnesses: ReadonlyArray<{ readonly name: string; readonly face: { readonly sense: string } }>;
  readonly standings: readonly WitnessStanding[];
}

/**
 * The further witnesses' pairs that have to be compared before they are put together: all of one sense, of which one may be
 * the other's copy, and those of which one is of another state than the first, which says nothing of the two.
 */
export function pairsAmong({ witnesses, standings }: Placed): Array<[string, string]> {
  const supported = witnesses
    .map(({ face: { sense } }, k) => ({ ...standings[k], sense }))
    .filter(({ finding }) => finding === 'supported');
  const other = ({ state }: WitnessStanding): boolean => state === 'subjectEarlier' || state === 'subjectLater';
  return supported.flatMap((two, k) =>
    supported
      .slice(0, k)
      .filter((one) => one.sense === two.sense || other(one) || other(two))
      .map(({ name }): [string, string] => [name, two.name]),
  );
}

/** What was found of those pairs. */
export const amongJudged = (pairs: ReadonlyArray<readonly [string, string]>, judged: readonly JudgedPair[]): Among => ({
  kin: pairs.flatMap(([one, two], k) => kinshipOf(one, two, judged[k].descent)),
  states: pairs.map(([one, two], k) => ({ one, two, state: judged[k].state.reading })),
});
