import { firmSets, type Tie } from './firmSets.ts';
import { leastCut, type Weighted } from './leastCut.ts';

/** A pair of nodes that something speaks against. `byHand`: a person split them. */
export interface Against {
  readonly a: number;
  readonly b: number;
  readonly weight: number;
  readonly byHand: boolean;
}

export interface ScoredTie extends Tie {
  /** What it weighs against evidence the other way. */
  readonly weight: number;
}

/** Looks at a set for two matrices that its pairs show only together; the two sides, or null. */
export type LookForTwo = (set: readonly number[]) => readonly [readonly number[], readonly number[]] | null;

/**
 * Sets that are firmly tied and that nothing inside splits. For every pair that something speaks against, gravest first, the least cut
 * between its two is looked for; where the evidence against across that cut weighs at least as much as the ties that it cuts, or a person split
 * the two, the set falls in two there and both parts are looked at again. What holds is shown to `lookForTwo`.
 */
export function settled(
  nodes: number,
  ties: readonly ScoredTie[],
  against: readonly Against[],
  lookForTwo: LookForTwo = () => null,
): number[][] {
  const ranked = [...against].sort(
    (x, y) => Number(y.byHand) - Number(x.byHand) || y.weight - x.weight || x.a - y.a || x.b - y.b,
  );
  const all = Array.from({ length: nodes }, (_, k) => k);
  const open = firmSets(all, ties);
  const done: number[][] = [];
  while (open.length > 0) {
    const set = open.pop() as number[];
    const parts = fallen(set, ties, ranked) ?? lookForTwo(set)?.flatMap((side) => firmSets(side, ties));
    if (parts) open.push(...parts);
    else done.push(set);
  }
  return done.sort((x, y) => x[0] - y[0]);
}

/** The parts into which a set falls, or null where it holds. */
function fallen(set: readonly number[], ties: readonly ScoredTie[], ranked: readonly Against[]): number[][] | null {
  const place = new Map(set.map((node, k) => [node, k]));
  const inside = ties.filter(({ a, b }) => place.has(a) && place.has(b));
  const contrary = ranked.filter(({ a, b }) => place.has(a) && place.has(b));
  const local = inside.map(({ a, b, weight }): Weighted => ({ a: place.get(a) ?? 0, b: place.get(b) ?? 0, weight }));
  for (const { a, b, byHand } of contrary) {
    const cut = leastCut(set.length, local, place.get(a) ?? 0, place.get(b) ?? 0);
    const side = new Set(cut.side.map((k) => set[k]));
    const across = contrary.reduce((sum, one) => sum + (side.has(one.a) !== side.has(one.b) ? one.weight : 0), 0);
    if (!byHand && across < cut.weight) continue;
    // A part may hang on too little now.
    return [set.filter((node) => side.has(node)), set.filter((node) => !side.has(node))].flatMap((part) =>
      firmSets(part, inside),
    );
  }
  return null;
}
