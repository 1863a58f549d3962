import type { HeightGrid } from '../geometry/index.ts';
import { type Chance, chanceOf } from './chance.ts';
import { overlapDefaults } from './overlaps.ts';
import { searchDefaults, searchFits } from './search.ts';

export const ownScaleDefaults = {
  /** Side of the transforms, cells: four times the area of the search's own, for images up to about six times as long as the other. */
  transform: 256,
  /** The greater image's box against its length, as it may lie aslant in its grid. */
  margin: 1.1,
};

/**
 * Grids on which two images are searched in the bands of the smaller, the greater being `ratio` times as long. The greater one lies on them
 * with all of it; where it is so much greater that the transform does not hold it, cells are wider, down to what the coarse band needs.
 */
export function ownScaleGrids(ratio: number, { transform, margin } = ownScaleDefaults) {
  const widest = Math.max(searchDefaults.widest, margin * ratio);
  const fitting = (across: number, cells: number): number => Math.min(across, Math.floor(cells));
  const coarseAcross = fitting(
    searchDefaults.coarseAcross,
    Math.min(transform / (ratio + 0.7), transform / widest - 1),
  );
  return {
    search: { ...searchDefaults, coarseAcross, widest, transform },
    overlaps: { across: fitting(overlapDefaults.across, transform / widest - 1), widest, transform },
  };
}

/** What the best place reaches in the bands of an image `sizeMm` long, and what chance reaches over the same search. */
export function reachedAtOwnScale(
  reference: HeightGrid,
  subject: HeightGrid,
  sizeMm: number,
  ratio: number,
): { readonly significance: number; readonly chance: Chance } {
  const { proper, none } = searchFits(reference, subject, sizeMm, {}, ownScaleGrids(ratio).search);
  const significance = proper[0]?.significance ?? 0;
  return { significance, chance: chanceOf(significance, none.wrongSign, none.mirror) };
}
