/** A tie with what it weighs. */
export interface Weighted {
  readonly a: number;
  readonly b: number;
  readonly weight: number;
}

export interface Cut {
  readonly weight: number;
  /** Nodes on the side of `from`, in order. */
  readonly side: readonly number[];
}

/**
 * The least weight of ties whose removal parts two nodes, and the side of the first: greatest flow by shortest augmenting paths
 * (Edmonds and Karp, Journal of the ACM 19, 1972). Among cuts of equal weight the one nearest to `from`, whatever the order of the ties.
 * Where the weight reaches `enough` the search ends there, and the side says nothing.
 */
export function leastCut(
  nodes: number,
  ties: readonly Weighted[],
  from: number,
  to: number,
  enough = Number.POSITIVE_INFINITY,
): Cut {
  const room: Map<number, number>[] = Array.from({ length: nodes }, () => new Map());
  for (const { a, b, weight } of ties) {
    if (a === b) continue;
    room[a].set(b, (room[a].get(b) ?? 0) + weight);
    room[b].set(a, (room[b].get(a) ?? 0) + weight);
  }
  let weight = 0;
  for (;;) {
    const before = reached(room, from);
    if (before[to] < 0) return { weight, side: Array.from(before.keys()).filter((i) => before[i] >= 0) };
    let flow = Number.POSITIVE_INFINITY;
    for (let i = to; i !== from; i = before[i]) flow = Math.min(flow, room[before[i]].get(i) ?? 0);
    for (let i = to; i !== from; i = before[i]) {
      room[before[i]].set(i, (room[before[i]].get(i) ?? 0) - flow);
      room[i].set(before[i], (room[i].get(before[i]) ?? 0) + flow);
    }
    weight += flow;
    if (weight >= enough) return { weight, side: [] };
  }
}

/** What room is left to reach: the node before each on a shortest path; −1 where none leads. */
function reached(room: readonly Map<number, number>[], from: number): Int32Array {
  const before = new Int32Array(room.length).fill(-1);
  before[from] = from;
  const queue = [from];
  for (let k = 0; k < queue.length; k++)
    for (const [j, left] of room[queue[k]])
      if (left > 1e-9 && before[j] < 0) {
        before[j] = queue[k];
        queue.push(j);
      }
  return before;
}
