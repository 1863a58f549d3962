import { leastCut } from './leastCut.ts';
import { Union } from './union.ts';

/** What a set has to be held by at every way of cutting it in two: one tie that stands alone, two of the second rank or three of the third. */
export const firm = 6;
/** What a tie counts by how many of its rank are needed. */
export const holdOf = { alone: firm, two: firm / 2, three: firm / 3 } as const;

/** An undirected tie between two nodes; `hold`: one of `holdOf`. */
export interface Tie {
  readonly a: number;
  readonly b: number;
  readonly hold: number;
}

/**
 * The greatest sets of nodes that no cut with a hold below `firm` parts, each with the ties inside it alone. They are found by cutting wherever
 * less holds, and are the same whatever cut is made first: of two such sets with a node in common the union is one too. Taking a
 * tie away never joins anything. (k-edge-connected subgraphs; Matula, Journal of the ACM 1972, has them for k ties of one kind.)
 */
export function firmSets(nodes: readonly number[], ties: readonly Tie[]): number[][] {
  const open = connected(nodes, ties);
  const done: number[][] = [];
  for (let set = open.pop(); set; set = open.pop()) {
    const parts = parted(set, ties);
    if (parts) open.push(...parts);
    else done.push(set);
  }
  return done.sort((x, y) => x[0] - y[0]);
}

/** The parts of a set where it is cut, or null where it is firm. */
function parted(set: readonly number[], ties: readonly Tie[]): number[][] | null {
  if (set.length < 2) return null;
  const inside = within(set, ties);
  const loose = looseNodes(set, inside);
  if (loose.size > 0) {
    const rest = set.filter((node) => !loose.has(node));
    return [...[...loose].map((node) => [node]), ...connected(rest, inside)];
  }
  const place = new Map(set.map((node, k) => [node, k]));
  const local = inside.map(({ a, b, hold }) => ({ a: place.get(a) ?? 0, b: place.get(b) ?? 0, weight: hold }));
  for (let k = 1; k < set.length; k++) {
    const cut = leastCut(set.length, local, 0, k, firm);
    if (cut.weight >= firm) continue;
    const side = new Set(cut.side.map((i) => set[i]));
    return [set.filter((node) => side.has(node)), set.filter((node) => !side.has(node))].flatMap((part) =>
      connected(part, inside),
    );
  }
  return null;
}

/** Nodes that too little holds, and those that too little holds once they are gone. */
function looseNodes(set: readonly number[], ties: readonly Tie[]): Set<number> {
  const hold = new Map(set.map((node) => [node, 0]));
  const at = new Map<number, Tie[]>(set.map((node) => [node, []]));
  for (const tie of ties)
    for (const node of [tie.a, tie.b]) {
      hold.set(node, (hold.get(node) ?? 0) + tie.hold);
      at.get(node)?.push(tie);
    }
  const loose = new Set(set.filter((node) => (hold.get(node) ?? 0) < firm));
  for (const node of loose)
    for (const { a, b, hold: lost } of at.get(node) ?? []) {
      const other = a === node ? b : a;
      hold.set(other, (hold.get(other) ?? 0) - lost);
      // A set visits what is added to it while it is walked.
      if ((hold.get(other) ?? 0) < firm) loose.add(other);
    }
  return loose;
}

const within = <T extends { a: number; b: number }>(set: readonly number[], ties: readonly T[]): T[] => {
  const inside = new Set(set);
  return ties.filter(({ a, b }) => a !== b && inside.has(a) && inside.has(b));
};

function connected(nodes: readonly number[], ties: readonly Tie[]): number[][] {
  const place = new Map(nodes.map((node, k) => [node, k]));
  const union = new Union(nodes.length);
  for (const { a, b } of within(nodes, ties)) union.join(place.get(a) ?? 0, place.get(b) ?? 0);
  return union.sets().map((set) => set.map((k) => nodes[k]));
}
