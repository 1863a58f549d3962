import type { MadePair, PairRecipe } from '../../populations/index.ts';
import { valueAt } from '../../populations/lattice.ts';
import { storyOf } from '../../populations/makePair.ts';

/** From so much on a surface lies lower, mm: what the first generator calls touched. */
export const leastDropMm = 0.02;

/**
 * How far the subject's surface lies below the reference's at the same material point, mm, for each vertex of the subject's scan: as both were made, without
 * bending, shrinkage and noise, whatever lowered it. Of one design on one lattice.
 */
export function trueDrop(seed: number, recipe: PairRecipe, { subject }: MadePair): (vertex: number) => number {
  const { reference: a, subject: b } = storyOf(seed, recipe);
  return (vertex) => {
    const [x, y] = [subject.designPlace[2 * vertex], subject.designPlace[2 * vertex + 1]];
    return valueAt(a.made.lattice, a.made.z, x, y) - valueAt(b.made.lattice, b.made.z, x, y);
  };
}
