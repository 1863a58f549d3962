import type { Group } from '../../core/collection/index.ts';
import type { ScanRow } from '../../store/catalogue.ts';
import type { Grouped } from '../../store/grouping.ts';
import { build, version } from '../version.ts';

/** What a reader of groups has to know first. */
export const groupCaution =
  'A shared matrix says nothing of who sealed. Groups are of one matrix or faithful copies of it, as verified pairs support them.';

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
  /** Share of the largest image that it was compared with, 0 to 1; null where it is not known. */
  readonly imageLeft: number | null;
}

export type GroupRecord = ReturnType<typeof groupRecord>;

/** The groups with their objects by name: what `--json` writes. */
export function groupRecord({ grouping, scans, links }: Grouped) {
  const named = (id: string): Named => nameOf(scans.get(id) as ScanRow);
  const pair = ({ a, b }: { a: string; b: string }) => ({ a: named(a), b: named(b) });
  // Beside a negative alone: of wax whose lip hangs together with the image, the image's own area is not known.
  const isNegative = (id: string): boolean => ['matrix', 'mould'].includes(scans.get(id)?.kind ?? '');
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
    descent: one.descent.map(({ relation, by, ...step }) => ({ ...pair(step), relation, by })),
    states: one.states.map(({ earlier, later }) => ({ earlier: named(earlier), later: named(later) })),
    stateContradictions: one.stateContradictions.map((ids) => ids.map(named)),
    against: one.against.map(({ finding, score, ...ends }) => ({ ...pair(ends), finding, score })),
    decisions: one.decisions.map(({ members, ...decision }) => ({
      ...decision,
      members: members.filter((id) => scans.has(id)).map(named),
    })),
  });
  return {
    schema: 'ectype/groups/1',
    by: `ectype ${version} (build ${build})`,
    caution: groupCaution,
    compared: grouping.compared,
    expectedFalseMerges: grouping.expectedFalseMerges,
    thresholds: grouping.thresholds,
    groups: grouping.groups.map(group),
    single: grouping.single.map(named),
    sides: grouping.sides.map(({ groups, by }) => ({
      groups: groups.map(groupName),
      by: by.map(([a, b]) => pair({ a, b })),
    })),
    waiting: grouping.waiting.map(({ score, ...ends }) => ({ ...pair(ends), score })),
  };
}

const groupName = (id: string): string => `group-${id}`;

const nameOf = ({ id, shelfmark, kind, seal, side, document_date, path }: ScanRow): Named => ({
  scan: id,
  shelfmark,
  kind,
  seal,
  side,
  documentDate: document_date,
  file: path,
});
