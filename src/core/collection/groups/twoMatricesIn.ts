import { onOnePlane } from './commonShifts.ts';

import type { ScoredTie } from './contested.ts';
import type { ByHand } from './decisions.ts';
import { inOrder } from './inOrder.ts';
import { partedByShifts, type TreeTie } from './twoMatrices.ts';
import type { Link, PartedGroups } from './types.ts';

/** Looks for two matrices in a set by the places of all its pairs, and tells where there are two. */
export function twoMatricesIn(
  { links, byHand }: { readonly links: readonly Link[]; readonly byHand: ByHand },
  nodes: readonly (readonly string[])[],
  nodeOf: ReadonlyMap<string, number>,
  own: readonly ScoredTie[],
  tell: (parted: PartedGroups) => void,
) {
  const ends = ({ a, b }: { a: string; b: string }) => [nodeOf.get(a) ?? -1, nodeOf.get(b) ?? -1] as const;
  const tied = (pair: { a: string; b: string }, score: number): TreeTie[] => {
    const [a, b] = ends(pair);
    return a < 0 || b < 0 || a === b ? [] : [{ a, b, score }];
  };
  const ties = [
    ...links.flatMap((link) => (link.finding === 'supported' ? tied(link, link.score ?? 0) : [])),
    ...byHand.joined.flatMap(([a, b]) => tied({ a, b }, Number.POSITIVE_INFINITY)),
    ...own.map(({ a, b }) => ({ a, b, score: Number.POSITIVE_INFINITY })),
  ];
  const placed = links.flatMap((link) => {
    const [i, j] = ends(link);
    return link.places && i >= 0 && j >= 0
      ? [{ a: link.a, b: link.b, nodes: [i, j] as const, places: link.places }]
      : [];
  });
  return (set: readonly number[]) => {
    const inside = new Set(set);
    const fields = onOnePlane(placed.filter((pair) => pair.nodes.every((node) => inside.has(node))));
    const found = partedByShifts(set, ties, fields);
    if (!found) return null;
    const { sides, ...shown } = found;
    const named = sides.map((side) => side.flatMap((node) => nodes[node]).sort(inOrder));
    const [first, second] = named.sort((x, y) => inOrder(x[0], y[0]));
    tell({ sides: [first, second], ...shown });
    return sides;
  };
}
