import { type Component, type ComponentGroups, groupComponent } from './component.ts';
import { byHand, inTime } from './decisions.ts';
import { copiesFalseSupport, differentPairs, errorDefaults, type FalseSupport, thresholdsFor } from './falseSupport.ts';
import { inOrder } from './inOrder.ts';
import type { Decision, Group, GroupedObject, Grouping, Known, Link, Thresholds } from './types.ts';
import { Union } from './union.ts';

export interface GroupingOptions {
  /** Expected number of false merges in the whole collection, at most. */
  readonly mostFalseMerges?: number;
  /** How often different matrices reach a score: the held-out pairs', or the user's own. */
  readonly falseSupport?: FalseSupport;
  /** Of false joins by several links, the share that the shifts of places do not show; by what the links carry where it is left out. */
  readonly unshown?: number;
}

/** What is known of a collection; `compared`: how many pairs were compared, whatever the finding. */
export type Evidence = readonly [
  objects: readonly GroupedObject[],
  links: readonly Link[],
  known: readonly Known[],
  decisions: readonly Decision[],
  compared: number,
  options?: GroupingOptions,
];

/** The groups of a collection. Links come from verified pairs alone. Nothing depends on the order of any list. See docs/collection.md. */
export const groupObjects = (...evidence: Evidence): Grouping => grouped(evidence, groupComponent);

/**
 * The same as `groupObjects`, from an earlier result, where only what touches `changed` objects is new (objects added, links, relations or decisions
 * that name them): components without any of them are taken over, unless the number of pairs or objects has passed a power of two.
 */
export function regroup(before: Grouping, changed: readonly string[], ...evidence: Evidence): Grouping {
  const { alone, two, three } = before.thresholds;
  const news = new Set(changed);
  return grouped(evidence, (part, now) => {
    const same = now.alone === alone && now.two === two && now.three === three;
    const old = same && part.objects.every(({ id }) => !news.has(id));
    return old ? takenOver(before, part) : groupComponent(part, now);
  });
}

function grouped(
  [objects, links, known, decisions, compared, options = {}]: Evidence,
  groupsOf: (part: Component, thresholds: Thresholds) => ComponentGroups,
): Grouping {
  const thresholds = thresholdsOf(compared, objects.length, links, options);
  const parts = componentsOf(objects, links, known, decisions).map((part) => groupsOf(part, thresholds));
  return assembled(parts, known, decisions, compared, thresholds);
}

function thresholdsOf(compared: number, objects: number, links: readonly Link[], options: GroupingOptions): Thresholds {
  const bound = options.falseSupport ?? copiesFalseSupport;
  const supported = links.filter(({ finding }) => finding === 'supported');
  const different = differentPairs(compared, supported.length, bound);
  // What was verified by an earlier version says nothing of its places: two matrices may not show.
  const told = options.unshown ?? (supported.every(({ places }) => places !== undefined) ? errorDefaults.unshown : 1);
  return thresholdsFor(different, objects, bound, {
    ...errorDefaults,
    unshown: told,
    ...(options.mostFalseMerges && { mostFalseMerges: options.mostFalseMerges }),
  });
}

/** Objects that supported pairs, stated relations of one object or one descent, and joins hang together, each list in one order. */
function componentsOf(
  objects: readonly GroupedObject[],
  links: readonly Link[],
  known: readonly Known[],
  decisions: readonly Decision[],
): Component[] {
  const sorted = [...objects].sort((x, y) => inOrder(x.id, y.id));
  const place = new Map(sorted.map(({ id }, k) => [id, k]));
  const there = ({ a, b }: { a: string; b: string }): boolean => a !== b && place.has(a) && place.has(b);
  const union = new Union(sorted.length);
  const at = (id: string): number => place.get(id) ?? 0;
  const ownLinks = links.filter(there).sort((x, y) => inOrder(keyOf(x), keyOf(y)));
  const ownKnown = known
    .filter(there)
    .sort((x, y) => inOrder(`${x.a}\n${x.b}\n${x.relation}`, `${y.a}\n${y.b}\n${y.relation}`));
  const hand = byHand(decisions);
  const [joined, split] = [hand.joined, hand.split].map((pairs) => pairs.filter(([a, b]) => there({ a, b })));
  for (const { a, b, finding } of ownLinks) if (finding === 'supported') union.join(at(a), at(b));
  for (const { a, b, relation } of ownKnown) if (relation !== 'sidesOf') union.join(at(a), at(b));
  for (const [a, b] of joined) union.join(at(a), at(b));
  const root = (id: string): number => union.find(at(id));
  const byRoot = <T>(list: readonly T[], id: (one: T) => string): Map<number, T[]> => {
    const out = new Map<number, T[]>();
    for (const one of list) {
      const key = root(id(one));
      const before = out.get(key);
      if (before) before.push(one);
      else out.set(key, [one]);
    }
    return out;
  };
  const inside = <T>(list: readonly T[], ends: (one: T) => readonly [string, string]): T[] =>
    list.filter((one) => root(ends(one)[0]) === root(ends(one)[1]));
  const linksOf = byRoot(
    inside(ownLinks, ({ a, b }) => [a, b]),
    ({ a }) => a,
  );
  const knownOf = byRoot(
    inside(ownKnown, ({ a, b }) => [a, b]),
    ({ a }) => a,
  );
  const joinedOf = byRoot(
    inside(joined, (pair) => pair),
    ([a]) => a,
  );
  const splitOf = byRoot(
    inside(split, (pair) => pair),
    ([a]) => a,
  );
  return union.sets().map((set) => {
    const r = set[0];
    return {
      objects: set.map((k) => sorted[k]),
      links: linksOf.get(r) ?? [],
      known: knownOf.get(r) ?? [],
      byHand: { joined: joinedOf.get(r) ?? [], split: splitOf.get(r) ?? [] },
    };
  });
}

const keyOf = ({ a, b, finding, score }: Link): string => `${a}\n${b}\n${finding}\n${score}`;

/** What an earlier grouping made of a component. */
function takenOver(before: Grouping, { objects }: Component): ComponentGroups {
  const ids = new Set(objects.map(({ id }) => id));
  return {
    groups: before.groups.filter(({ id }) => ids.has(id)),
    single: before.single.filter((id) => ids.has(id)),
    waiting: before.waiting.filter(({ a }) => ids.has(a)),
    parted: before.parted.filter(({ sides }) => ids.has(sides[0][0])),
  };
}

function assembled(
  parts: readonly ComponentGroups[],
  known: readonly Known[],
  decisions: readonly Decision[],
  compared: number,
  thresholds: Thresholds,
): Grouping {
  const bare = parts.flatMap(({ groups }) => groups).sort((x, y) => inOrder(x.id, y.id));
  const groupOf = new Map(bare.flatMap(({ id, members }) => members.map((member) => [member, id] as const)));
  const carried = decisionsOf(decisions, groupOf);
  return {
    groups: bare.map((group): Group => {
      const own = carried.get(group.id) ?? [];
      return { ...group, decisions: own, name: own.filter(({ kind }) => kind === 'name').at(-1)?.words ?? null };
    }),
    single: parts.flatMap(({ single }) => single).sort(inOrder),
    sides: sidesOf(known, groupOf),
    waiting: parts
      .flatMap(({ waiting }) => waiting)
      .sort((x, y) => y.score - x.score || inOrder(`${x.a}\n${x.b}`, `${y.a}\n${y.b}`)),
    parted: parts
      .flatMap(({ parted }) => parted)
      .sort((x, y) => inOrder(x.sides[0][0], y.sides[0][0]) || inOrder(x.sides[1][0], y.sides[1][0])),
    compared,
    thresholds,
    expectedFalseMerges: thresholds.expectedFalseMerges,
  };
}

/** Joins and splits go with every group that they name a member of; a name or a note with the group that holds most of its members. */
function decisionsOf(decisions: readonly Decision[], groupOf: ReadonlyMap<string, string>): Map<string, Decision[]> {
  const out = new Map<string, Decision[]>();
  for (const decision of inTime(decisions)) {
    const count = new Map<string, number>();
    for (const member of decision.members) {
      const group = groupOf.get(member);
      if (group !== undefined) count.set(group, (count.get(group) ?? 0) + 1);
    }
    const ranked = [...count].sort((x, y) => y[1] - x[1] || inOrder(x[0], y[0])).map(([group]) => group);
    const to = decision.kind === 'name' || decision.kind === 'note' ? ranked.slice(0, 1) : ranked;
    for (const group of to) out.set(group, [...(out.get(group) ?? []), decision]);
  }
  return out;
}

function sidesOf(known: readonly Known[], groupOf: ReadonlyMap<string, string>): Grouping['sides'] {
  const out = new Map<string, { groups: [string, string]; by: [string, string][] }>();
  for (const { a, b, relation } of known) {
    const [one, other] = [groupOf.get(a), groupOf.get(b)];
    if (relation !== 'sidesOf' || one === undefined || other === undefined || one === other) continue;
    const [first, second, x, y] = one < other ? [one, other, a, b] : [other, one, b, a];
    const key = `${first}\n${second}`;
    const entry = out.get(key) ?? { groups: [first, second], by: [] };
    entry.by.push([x, y]);
    out.set(key, entry);
  }
  return [...out]
    .sort(([x], [y]) => inOrder(x, y))
    .map(([, { groups, by }]) => ({ groups, by: by.sort((x, y) => inOrder(x.join('\n'), y.join('\n'))) }));
}
