import type { Group, Grouping, Link } from '../../collection/index.ts';
import { groupCaution } from '../words/groupCaution.ts';

/** One object as groups name it. */
export interface Named {
  readonly scan: number;
  readonly shelfmark: string;
  readonly kind: string;
  readonly seal: string | null;
  readonly side: string | null;
  readonly documentDate: string | null;
  readonly file: string;
}

export interface Member extends Named {
  /** Least share of the image beside the negatives that it was compared with, 0 to 1; null where it is not known. */
  readonly imageLeft: number | null;
}

export type GroupRecord = ReturnType<typeof groupRecord>;

/** The groups with their objects by name; `objects` by the ids of the grouping, `by`: tool and build. */
export function groupRecord(
  grouping: Grouping,
  objects: ReadonlyMap<string, Named>,
  links: readonly Pick<Link, 'a' | 'b' | 'imageLeft' | 'finding'>[],
  by: string,
) {
  const named = (id: string): Named => objects.get(id) as Named;
  const pair = ({ a, b }: { a: string; b: string }) => ({ a: named(a), b: named(b) });
  // Beside a negative alone: of two impressions neither says for certain where the image ends.
  const isNegative = (id: string): boolean => ['matrix', 'mould'].includes(objects.get(id)?.kind ?? '');
  const leftOf = (id: string): number | null => {
    const shares = links.flatMap(({ a, b, imageLeft, finding }) => {
      if (finding !== 'supported' || !imageLeft) return [];
      if (a === id && isNegative(b)) return [imageLeft[0]];
      return b === id && isNegative(a) ? [imageLeft[1]] : [];
    });
    return shares.length > 0 ? Math.min(...shares) : null;
  };
  const member = (id: string): Member => ({ ...named(id), imageLeft: leftOf(id) });
  const group = (one: Group) => ({
    id: groupName(one.id),
    name: one.name,
    members: one.members.map(member),
    strength: one.strength,
    weakest: one.weakest && { ...pair(one.weakest), score: one.weakest.score },
    leastLinks: one.leastLinks,
    possibleMembers: one.possibleMembers.map(({ id, with: other, score }) => ({
      ...member(id),
      with: named(other),
      score,
    })),
    descent: one.descent.map(({ relation, by: from, ...step }) => ({ ...pair(step), relation, by: from })),
    states: one.states.map(({ earlier, later }) => ({ earlier: named(earlier), later: named(later) })),
    stateContradictions: one.stateContradictions.map((ids) => ids.map(named)),
    against: one.against.map(({ finding, score, ...ends }) => ({ ...pair(ends), finding, score })),
    decisions: one.decisions.map(({ members, ...decision }) => ({
      ...decision,
      members: members.filter((id) => objects.has(id)).map(named),
    })),
  });
  return {
    schema: 'ectype/groups/1',
    by,
    caution: groupCaution,
    compared: grouping.compared,
    expectedFalseMerges: grouping.expectedFalseMerges,
    thresholds: grouping.thresholds,
    groups: grouping.groups.map(group),
    single: grouping.single.map(named),
    sides: grouping.sides.map(({ groups, by: ends }) => ({
      groups: groups.map(groupName),
      by: ends.map(([a, b]) => pair({ a, b })),
    })),
    parted: grouping.parted.map(({ sides, ...shown }) => ({ sides: sides.map((ids) => ids.map(named)), ...shown })),
    waiting: grouping.waiting.map(({ score, ...ends }) => ({ ...pair(ends), score })),
  };
}

const groupName = (id: string): string => `group-${id}`;
