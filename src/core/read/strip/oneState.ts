import type { WitnessStanding } from './standing.ts';

/** What a comparison of two further witnesses says of their states. */
export interface PairState {
  readonly one: string;
  readonly two: string;
  readonly state: WitnessStanding['state'];
}

/** How two witnesses stand by their states. */
type Beside = 'same' | 'apart' | 'untold';

/**
 * The witnesses that go together: the largest set of which no two were told apart by their states, at a tie the one that
 * holds the first of them, then the one of which fewer are untold. `count`: how many a set counts for.
 */
export function ofOneState(
  standings: readonly WitnessStanding[],
  pairs: readonly PairState[],
  count: (names: readonly string[]) => number,
): string[] {
  const apart = (a: WitnessStanding, b: WitnessStanding): boolean => beside(a, b, pairs) === 'apart';
  const [first] = standings;
  const worth = (group: readonly WitnessStanding[]): number =>
    2 * count(group.map(({ name }) => name)) +
    (group.includes(first) ? 1 : 0) -
    stateUntold(group, pairs).length / group.length;
  const best = together(standings, apart).reduce((most, group) => (worth(group) > worth(most) ? group : most));
  return best.map(({ name }) => name);
}

/** Those of a group that nothing ties to the rest: neither the first nor another of them was found to show the same state. */
export function stateUntold(group: readonly WitnessStanding[], pairs: readonly PairState[]): string[] {
  const tied = new Set([group.find((each) => stateOf(each) === 'sameState') ?? group[0]]);
  // A set that grows while it is gone through is gone through to its end.
  for (const a of tied) for (const b of group) if (beside(a, b, pairs) === 'same') tied.add(b);
  return group.filter((each) => !tied.has(each)).map(({ name }) => name);
}

/** All sets of which no two are apart and none can be enlarged, and some smaller ones. */
function together(
  members: readonly WitnessStanding[],
  apart: (a: WitnessStanding, b: WitnessStanding) => boolean,
): WitnessStanding[][] {
  const odd = members.find((a) => members.some((b) => apart(a, b)));
  if (!odd) return [[...members]];
  const withIt = members.filter((each) => !apart(each, odd));
  return [withIt, members.filter((each) => each !== odd)].flatMap((each) => together(each, apart));
}

const stateOf = ({ isReference, state }: WitnessStanding) => (isReference ? 'sameState' : state);

function beside(a: WitnessStanding, b: WitnessStanding, pairs: readonly PairState[]): Beside {
  const [p, q] = [stateOf(a), stateOf(b)];
  const own = pairs.find(({ one, two }) => [one, two].includes(a.name) && [one, two].includes(b.name))?.state ?? null;
  if (a === b) return 'same';
  if (own === 'subjectEarlier' || own === 'subjectLater') return 'apart';
  if (p === 'cannotJudge' || q === 'cannotJudge') return own === 'sameState' ? 'same' : 'untold';
  if (p !== q) return 'apart';
  if (p === 'sameState' || own === 'sameState') return 'same';
  // Two states may both be later than the first's: that has to be asked of the two themselves.
  return own === 'cannotJudge' ? 'untold' : 'apart';
}
