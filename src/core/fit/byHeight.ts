import type { HeightGrid } from '../geometry/index.ts';
import { searchDefaults, searchFits } from './search.ts';

export const byHeightDefaults = {
  /** What is weaker than one and a half times the usual strength is left as weak as it is. */
  floor: { share: 1.5, of: 0.5 },
};

/**
 * What the best place reaches where relief counts by its height. The search evens it out, so that faint letters count as much as a deep figure; where
 * the letters are worn away or not filled, the figure's agreement is lost among them.
 */
export function reachedByHeight(
  reference: HeightGrid,
  subject: HeightGrid,
  sizeMm: number,
  { floor } = byHeightDefaults,
): number {
  const { proper } = searchFits(reference, subject, sizeMm, {}, { ...searchDefaults, floor });
  return proper[0]?.significance ?? 0;
}
