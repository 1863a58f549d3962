import type { Link, StateStep } from './types.ts';

/**
 * The partial order of states that readings of pairs allow. Members that stand before one another both ways contradict each other: they are
 * given apart, and none of the steps among them. Of the rest no step is given that follows from two others.
 */
export function stateSteps(links: readonly Link[]): { steps: StateStep[]; contradictions: string[][] } {
  const after = new Map<string, Set<string>>();
  const add = (earlier: string, later: string): void => {
    after.set(earlier, (after.get(earlier) ?? new Set()).add(later));
  };
  for (const { a, b, state, finding } of links) {
    if (finding !== 'supported') continue;
    if (state === 'subjectEarlier') add(b, a);
    if (state === 'subjectLater') add(a, b);
  }
  const reach = new Map([...after.keys()].map((id) => [id, reachedFrom(id, after)]));
  const before = (a: string, b: string): boolean => reach.get(a)?.has(b) ?? false;
  const circular = [...after.keys()].filter((id) => before(id, id)).sort();
  const contradictions: string[][] = [];
  for (const id of circular)
    if (!contradictions.some((set) => set.includes(id)))
      contradictions.push(circular.filter((other) => other === id || (before(id, other) && before(other, id))));
  const together = (a: string, b: string): boolean => before(a, b) && before(b, a);
  const steps: StateStep[] = [];
  for (const [earlier, laters] of after)
    for (const later of laters) {
      if (together(earlier, later)) continue;
      const through = [...laters].some(
        (mid) => mid !== later && !together(mid, earlier) && !together(mid, later) && before(mid, later),
      );
      if (!through) steps.push({ earlier, later });
    }
  const key = ({ earlier, later }: StateStep): string => `${earlier}\n${later}`;
  return { steps: steps.sort((x, y) => (key(x) < key(y) ? -1 : 1)), contradictions };
}

function reachedFrom(id: string, after: ReadonlyMap<string, ReadonlySet<string>>): Set<string> {
  const seen = new Set<string>();
  const queue = [id];
  for (let next = queue.pop(); next !== undefined; next = queue.pop())
    for (const later of after.get(next) ?? [])
      if (!seen.has(later)) {
        seen.add(later);
        queue.push(later);
      }
  return seen;
}
