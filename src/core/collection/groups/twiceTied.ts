import { Union } from './union.ts';

/** An undirected tie between two nodes. `alone`: it ties by itself, as two would. */
export interface Tie {
  readonly a: number;
  readonly b: number;
  readonly alone: boolean;
}

/**
 * The sets of nodes that no single weak tie holds together: every way of cutting a set in two cuts one tie that stands alone, or
 * two others. These are the components that are left when the bridges among the weak ties are taken out (2-edge-connected
 * components; Tarjan, Information Processing Letters 2, 1974). Taking a tie away never joins anything.
 */
export function twiceTied(nodes: number, ties: readonly Tie[]): number[][] {
  const union = new Union(nodes);
  const bridge = bridges(nodes, ties);
  ties.forEach(({ a, b }, k) => {
    if (!bridge[k]) union.join(a, b);
  });
  return union.sets();
}

/** 1 for each weak tie without which its ends fall apart. A tie that stands alone counts as two, so it is none. */
function bridges(nodes: number, ties: readonly Tie[]): Uint8Array {
  const out = new Uint8Array(ties.length);
  const at: { to: number; tie: number }[][] = Array.from({ length: nodes }, () => []);
  ties.forEach(({ a, b }, tie) => {
    if (a === b) return;
    at[a].push({ to: b, tie });
    at[b].push({ to: a, tie });
  });
  const entered = new Int32Array(nodes).fill(-1);
  const low = new Int32Array(nodes);
  let clock = 0;
  for (let root = 0; root < nodes; root++) {
    if (entered[root] >= 0) continue;
    const stack = [{ node: root, by: -1, next: 0 }];
    entered[root] = low[root] = clock++;
    while (stack.length > 0) {
      const top = stack[stack.length - 1];
      const edge = at[top.node][top.next++];
      if (!edge) {
        stack.pop();
        const above = stack[stack.length - 1];
        if (!above) continue;
        low[above.node] = Math.min(low[above.node], low[top.node]);
        if (low[top.node] > entered[above.node] && !ties[top.by].alone) out[top.by] = 1;
      } else if (edge.tie === top.by) {
      } else if (entered[edge.to] >= 0) {
        low[top.node] = Math.min(low[top.node], entered[edge.to]);
      } else {
        entered[edge.to] = low[edge.to] = clock++;
        stack.push({ node: edge.to, by: edge.tie, next: 0 });
      }
    }
  }
  return out;
}
