import type { Seen } from '../types.ts';

/** A telling mark on two objects: shown, not shown although it could be, or not to be judged. */
export interface SeenOnTwo {
  readonly id: string;
  readonly first: Seen;
  readonly second: Seen;
}

/** How two objects stand by their telling marks, and the marks that say so. */
export type StateOrder =
  | { readonly code: 'bothWays'; readonly onlyFirst: readonly string[]; readonly onlySecond: readonly string[] }
  | { readonly code: 'firstHas' | 'secondHas' | 'hidden' | 'shared' | 'noneSeen'; readonly marks: readonly string[] };

/**
 * The one rule that orders two objects of one matrix. A mark that one has and the other lacks, on ground that could show it,
 * makes the first the later (`firstHas`, `secondHas`); marks both ways order nothing; a mark that the other could hardly show
 * says neither "earlier" nor "the same" (`hidden`); only shared ones: no change is seen; none at all says nothing, since a fine
 * one can escape the scan.
 */
export function stateOrder(marks: readonly SeenOnTwo[]): StateOrder {
  const where = (one: Seen, two: Seen): string[] =>
    marks.filter(({ first, second }) => first === one && second === two).map(({ id }) => id);
  const onlyFirst = where('present', 'absent');
  const onlySecond = where('absent', 'present');
  if (onlyFirst.length > 0 && onlySecond.length > 0) return { code: 'bothWays', onlyFirst, onlySecond };
  if (onlyFirst.length > 0) return { code: 'firstHas', marks: onlyFirst };
  if (onlySecond.length > 0) return { code: 'secondHas', marks: onlySecond };
  const hidden = [...where('present', 'cannotJudge'), ...where('cannotJudge', 'present')];
  if (hidden.length > 0) return { code: 'hidden', marks: hidden };
  const shared = where('present', 'present');
  return { code: shared.length > 0 ? 'shared' : 'noneSeen', marks: shared };
}
