import { type Strength, strengthDefaults } from '../../judge/index.ts';
import { type Against, type ScoredTie, settled } from './contested.ts';
import type { ByHand } from './decisions.ts';
import { holdOf } from './firmSets.ts';
import { inOrder } from './inOrder.ts';
import { leastCut } from './leastCut.ts';
import { stateSteps } from './stateSteps.ts';
import { twoMatricesIn } from './twoMatricesIn.ts';
import type { DescentStep, Group, GroupedObject, Known, Link, PartedGroups, Thresholds } from './types.ts';
import { Union } from './union.ts';
import { readsAsDescent, witnesses } from './witnesses.ts';

export const componentDefaults = {
  /** An object with less of its image than this is a fragment: it ties nothing and stays a possible member. */
  fragmentBelow: 0.5,
  /** What another design weighs against ties, by its strength: it has no score. */
  otherDesign: { none: 1, weak: 2, moderate: 4, strong: 8 } satisfies Record<Strength, number>,
};

/** Objects that hang together by supported pairs, stated relations and joins by hand, with all that is known among them. */
export interface Component {
  readonly objects: readonly GroupedObject[];
  readonly links: readonly Link[];
  readonly known: readonly Known[];
  readonly byHand: ByHand;
}

/** What becomes of a component; decisions, names and sides come later. */
export interface ComponentGroups {
  readonly groups: readonly Omit<Group, 'decisions' | 'name'>[];
  readonly single: readonly string[];
  readonly waiting: readonly { readonly a: string; readonly b: string; readonly score: number }[];
  readonly parted: readonly PartedGroups[];
}

type Options = typeof componentDefaults;

export function groupComponent(
  component: Component,
  thresholds: Thresholds,
  options: Options = componentDefaults,
): ComponentGroups {
  const { links, known, byHand } = component;
  const fragments = fragmentsOf(component, options);
  const ids = component.objects.map(({ id }) => id).filter((id) => !fragments.has(id));
  const { nodeOf, nodes, own } = nodesOf(ids, links, known, byHand, thresholds);
  const ties = [...own, ...tiesOf(links, byHand, nodeOf, thresholds)];
  const parted: PartedGroups[] = [];
  const lookForTwo = twoMatricesIn(component, nodes, nodeOf, own, (each) => parted.push(each));
  const sets = settled(nodes.length, ties, againstOf(links, byHand, nodeOf, thresholds, options), lookForTwo);
  const whole = sets.map((set) => set.flatMap((node) => nodes[node]).sort(inOrder));
  const setOf = new Map(whole.flatMap((members, k) => members.map((id) => [id, k] as const)));
  const possible = possibleMembers(links, byHand, fragments, setOf);
  const groups = whole.flatMap((members, k) => {
    const possibleHere = possible.get(k) ?? [];
    return members.length + possibleHere.length > 1 ? [told(members, possibleHere, sets[k], ties, component)] : [];
  });
  const placed = new Set(
    groups.flatMap(({ members, possibleMembers }) => [...members, ...possibleMembers.map(({ id }) => id)]),
  );
  return {
    groups: groups.sort((x, y) => inOrder(x.id, y.id)),
    single: component.objects.map(({ id }) => id).filter((id) => !placed.has(id)),
    waiting: links
      .filter(({ finding, a, b }) => finding === 'supported' && !(setOf.has(a) && setOf.get(a) === setOf.get(b)))
      .filter(({ a, b }) => fragments.has(a) === fragments.has(b))
      .filter(({ a, b }) => !parted.some((each) => isAcross(each, a, b)) && !isSplit(byHand, setOf, a, b))
      .map(({ a, b, score }) => ({ a, b, score: score ?? 0 })),
    parted: parted.sort((x, y) => inOrder(x.sides[0][0], y.sides[0][0]) || inOrder(x.sides[1][0], y.sides[1][0])),
  };
}

/** Of such a pair it is known why it ties nothing. */
const isAcross = ({ sides: [one, other] }: PartedGroups, a: string, b: string): boolean =>
  (one.includes(a) && other.includes(b)) || (one.includes(b) && other.includes(a));

/** Whether a person keeps the sets of these two apart. */
const isSplit = ({ split }: ByHand, setOf: ReadonlyMap<string, number>, a: string, b: string): boolean =>
  split.some(([x, y]) => {
    const [i, j] = [setOf.get(x), setOf.get(y)];
    return i !== j && [i, j].includes(setOf.get(a)) && [i, j].includes(setOf.get(b));
  });

/** Objects of which too little is left, by what is known of them and by their least share beside a partner; none that a person or the manifest placed. */
function fragmentsOf({ objects, links, known, byHand }: Component, { fragmentBelow }: Options): Set<string> {
  const left = new Map(objects.map(({ id, imageLeft = 1 }) => [id, imageLeft]));
  const less = (id: string, share: number): void => void left.set(id, Math.min(left.get(id) ?? 1, share));
  for (const { a, b, finding, imageLeft } of links)
    if (finding === 'supported' && imageLeft) {
      less(a, imageLeft[0]);
      less(b, imageLeft[1]);
    }
  const placed = new Set([
    ...known.filter(({ relation }) => relation !== 'sidesOf').flatMap(({ a, b }) => [a, b]),
    ...byHand.joined.flat(),
  ]);
  return new Set([...left].filter(([id, share]) => share < fragmentBelow && !placed.has(id)).map(([id]) => id));
}

/**
 * One node a witness. Where a person split two objects that would be one witness, its objects stand alone, tied by what made them one, so that
 * the split can be made.
 */
function nodesOf(
  ids: readonly string[],
  links: readonly Link[],
  known: readonly Known[],
  { split }: ByHand,
  thresholds: Thresholds,
) {
  const nodes: string[][] = [];
  const own: ScoredTie[] = [];
  for (const set of witnesses(ids, links, known, thresholds)) {
    const members = set.map((k) => ids[k]);
    if (!split.some(([a, b]) => members.includes(a) && members.includes(b))) {
      nodes.push(members);
      continue;
    }
    const first = nodes.length;
    for (const id of members) nodes.push([id]);
    const pairs = [
      ...known.filter(({ relation }) => relation !== 'sidesOf'),
      ...links.filter((link) => readsAsDescent(link) && (link.score ?? 0) >= thresholds.two),
    ];
    for (const { a, b } of pairs) {
      const [i, j] = [members.indexOf(a), members.indexOf(b)];
      if (i >= 0 && j >= 0) own.push({ a: first + i, b: first + j, hold: holdOf.alone, weight: thresholds.alone });
    }
  }
  const nodeOf = new Map(nodes.flatMap((members, node) => members.map((id) => [id, node] as const)));
  return { nodes, nodeOf, own };
}

/** One tie between two witnesses, by their best pair; joins by hand weigh more than anything measured can. */
function tiesOf(
  links: readonly Link[],
  byHand: ByHand,
  nodeOf: ReadonlyMap<string, number>,
  thresholds: Thresholds,
): ScoredTie[] {
  const best = new Map<string, ScoredTie>();
  const add = (one: string, other: string, tie: Pick<ScoredTie, 'hold' | 'weight'>): void => {
    const [i, j] = [nodeOf.get(one), nodeOf.get(other)];
    if (i === undefined || j === undefined || i === j) return;
    const [a, b] = [Math.min(i, j), Math.max(i, j)];
    const before = best.get(`${a} ${b}`);
    if (!before || before.weight < tie.weight) best.set(`${a} ${b}`, { a, b, ...tie });
  };
  for (const { a, b, finding, score } of links)
    if (finding === 'supported' && score !== null && score >= thresholds.three)
      add(a, b, { hold: holdAt(score, thresholds), weight: Math.min(score, thresholds.alone) });
  for (const [a, b] of byHand.joined) add(a, b, { hold: holdOf.alone, weight: 1e6 });
  return [...best.values()].sort((x, y) => x.a - y.a || x.b - y.b);
}

const holdAt = (score: number, { alone, two }: Thresholds): number =>
  score >= alone ? holdOf.alone : score >= two ? holdOf.two : holdOf.three;

function againstOf(
  links: readonly Link[],
  byHand: ByHand,
  nodeOf: ReadonlyMap<string, number>,
  { alone }: Thresholds,
  options: Options,
): Against[] {
  const out: Against[] = [];
  const add = (one: string, other: string, weight: number, hand: boolean): void => {
    const [i, j] = [nodeOf.get(one), nodeOf.get(other)];
    if (i === undefined || j === undefined || i === j) return;
    out.push({ a: Math.min(i, j), b: Math.max(i, j), weight, byHand: hand });
  };
  for (const { a, b, finding, score, strength } of links) {
    if (finding === 'against') add(a, b, Math.min(alone, Math.abs(score ?? 0)), false);
    if (finding === 'otherDesign') add(a, b, options.otherDesign[strength], false);
  }
  for (const [a, b] of byHand.split) add(a, b, 1e9, true);
  return out;
}

/** By set: the fragments with a supported pair to a member, and the best of these. A person's split of the two holds. */
function possibleMembers(
  links: readonly Link[],
  { split }: ByHand,
  fragments: ReadonlySet<string>,
  setOf: ReadonlyMap<string, number>,
) {
  const best = new Map<number, Map<string, { id: string; with: string; score: number }>>();
  for (const { a, b, finding, score } of links)
    for (const [id, other] of [
      [a, b],
      [b, a],
    ]) {
      const set = setOf.get(other);
      if (finding !== 'supported' || score === null || !fragments.has(id) || set === undefined) continue;
      if (split.some(([x, y]) => [x, y].includes(id) && setOf.get(x === id ? y : x) === set)) continue;
      const here = best.get(set) ?? new Map<string, { id: string; with: string; score: number }>();
      const before = here.get(id);
      if (!before || before.score < score || (before.score === score && other < before.with))
        here.set(id, { id, with: other, score });
      best.set(set, here);
    }
  return new Map([...best].map(([set, here]) => [set, [...here.values()].sort((x, y) => inOrder(x.id, y.id))]));
}

function told(
  members: readonly string[],
  possible: Group['possibleMembers'],
  set: readonly number[],
  ties: readonly ScoredTie[],
  { links, known }: Component,
): Omit<Group, 'decisions' | 'name'> {
  const within = new Set(members);
  const inside = links.filter(({ a, b }) => within.has(a) && within.has(b));
  const weakest = weakestOf(members, inside, known);
  const { steps, contradictions } = stateSteps(inside);
  return {
    id: members[0],
    members,
    strength: weakest && strengthOf(weakest.score),
    weakest,
    leastLinks: leastLinks(set, ties),
    possibleMembers: possible,
    descent: descentOf(inside, known, within),
    states: steps,
    stateContradictions: contradictions,
    against: inside
      .filter(({ finding }) => finding === 'against' || finding === 'otherDesign')
      .map(({ a, b, finding, score }) => ({ a, b, finding, score })),
  };
}

const strengthOf = (score: number): Strength =>
  score >= strengthDefaults.strong ? 'strong' : score >= strengthDefaults.moderate ? 'moderate' : 'weak';

/** The least pair of a greatest spanning tree over what is not tied by statement: the group's weakest link. */
function weakestOf(members: readonly string[], links: readonly Link[], known: readonly Known[]): Group['weakest'] {
  const place = new Map(members.map((id, k) => [id, k]));
  const union = new Union(members.length);
  const at = (id: string): number => place.get(id) ?? 0;
  for (const { a, b, relation } of known)
    if (relation !== 'sidesOf' && place.has(a) && place.has(b)) union.join(at(a), at(b));
  const pairs = links.filter(({ finding, score }) => finding === 'supported' && score !== null);
  pairs.sort((x, y) => (y.score ?? 0) - (x.score ?? 0) || inOrder(x.a + x.b, y.a + y.b));
  let weakest: Group['weakest'] = null;
  for (const { a, b, score } of pairs) {
    if (union.find(at(a)) === union.find(at(b))) continue;
    union.join(at(a), at(b));
    weakest = { a, b, score: score ?? 0 };
  }
  return weakest;
}

/** Ties that have to be false before the set falls in two: the least cut over all ways, each tie counted once. */
function leastLinks(set: readonly number[], ties: readonly ScoredTie[]): number {
  if (set.length < 2) return 0;
  const place = new Map(set.map((node, k) => [node, k]));
  const each = ties
    .filter(({ a, b }) => place.has(a) && place.has(b))
    .map(({ a, b }) => ({ a: place.get(a) ?? 0, b: place.get(b) ?? 0, weight: 1 }));
  let least = Number.POSITIVE_INFINITY;
  for (let k = 1; k < set.length; k++) least = Math.min(least, leastCut(set.length, each, 0, k).weight);
  return least;
}

function descentOf(links: readonly Link[], known: readonly Known[], within: ReadonlySet<string>): DescentStep[] {
  const steps: DescentStep[] = known
    .filter(({ a, b, relation }) => relation !== 'sidesOf' && within.has(a) && within.has(b))
    .map(({ a, b, relation }) => ({ a, b, relation: relation === 'castOf' ? 'castOf' : 'scansOf', by: 'stated' }));
  for (const link of links) {
    const { a, b, descent } = link;
    const stated = steps.some(
      (step) => step.by === 'stated' && [step.a, step.b].includes(a) && [step.a, step.b].includes(b),
    );
    if (!readsAsDescent(link) || stated) continue;
    if (descent === 'subjectFromReference') steps.push({ a: b, b: a, relation: 'castOf', by: 'read' });
    else if (descent === 'referenceFromSubject') steps.push({ a, b, relation: 'castOf', by: 'read' });
    else steps.push({ a, b, relation: 'oneDescent', by: 'read' });
  }
  return steps.sort((x, y) => inOrder(`${x.a}\n${x.b}\n${x.relation}`, `${y.a}\n${y.b}\n${y.relation}`));
}
