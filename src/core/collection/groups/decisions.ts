import type { Decision } from './types.ts';

/** Pairs that a person joined or split; of two decisions on one pair the later holds. */
export interface ByHand {
  readonly joined: readonly (readonly [string, string])[];
  readonly split: readonly (readonly [string, string])[];
}

/** The order in which decisions were made: by moment, then by who and what, so that the order of the list does not matter. */
export const inTime = (decisions: readonly Decision[]): Decision[] =>
  [...decisions].sort((a, b) => compare(a.at, b.at) || compare(keyOf(a), keyOf(b)));

const keyOf = ({ kind, by, members, words }: Decision): string => [kind, by, words, ...members].join('\n');
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** What holds of joins and splits. A join is kept for every pair of its members, so that a later split takes back no more than its own. */
export function byHand(decisions: readonly Decision[]): ByHand {
  const holds = new Map<string, { pair: readonly [string, string]; kind: 'join' | 'split' }>();
  for (const { kind, members } of inTime(decisions)) {
    if (kind !== 'join' && kind !== 'split') continue;
    const list = [...new Set(members)].sort(compare);
    list.forEach((a, i) => {
      for (const b of list.slice(i + 1)) holds.set(`${a}\n${b}`, { pair: [a, b], kind });
    });
  }
  const pairs = [...holds].sort(([a], [b]) => compare(a, b)).map(([, value]) => value);
  return {
    joined: pairs.filter(({ kind }) => kind === 'join').map(({ pair }) => pair),
    split: pairs.filter(({ kind }) => kind === 'split').map(({ pair }) => pair),
  };
}
