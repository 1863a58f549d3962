import { fitForm, type HeightGrid, median, quantile, withHeights, withoutFormPlainly } from '../../geometry/index.ts';
import { sampled } from './parts.ts';
import { regionMeans } from './regions.ts';

export const groundDefaults = {
  /** Cut-off of the smooth surface, mm. */
  regionMm: 12,
  /** Cells that stand no higher over their surroundings than this share of all are taken for ground at first. */
  lowest: 0.45,
  /** Then those within this many median deviations of the surface found. */
  within: 2.5,
  /** … and no more than so many below it: infinite where what lies low is no loss. */
  below: Number.POSITIVE_INFINITY,
  rounds: 3,
};

/** A face without its robust second-order form over these cells: a form that walls, lip or table had a share in lifts the ground to an edge. Heights over the ground are told on it, but for losses that slope away all round. */
export function onOwnForm(grid: HeightGrid, cells: Uint8Array): HeightGrid {
  const those = withHeights(
    grid,
    grid.z,
    grid.mask.map((there, i) => there && cells[i]),
  );
  return withHeights(grid, withoutFormPlainly(grid, fitForm(those, 2)));
}

/**
 * Height over the ground, mm: the ground is a smooth surface through the cells that stand over nothing, found again
 * without those that stand above it, as feet of the relief do.
 */
export function heightOverGround(
  grid: HeightGrid,
  exposure: Float32Array,
  inside: Uint8Array,
  options = groundDefaults,
): Float32Array {
  const use = (i: number): boolean => inside[i] === 1 && grid.mask[i] === 1;
  const low = quantile(sampled(exposure, use), options.lowest);
  const first = (i: number): boolean => use(i) && exposure[i] < low;
  let height = above(grid, first, options.regionMm);
  for (let round = 1; round < options.rounds; round++) {
    const residuals = sampled(height, first);
    const middle = median(residuals);
    const deviation = median(residuals.map((value) => Math.abs(value - middle)));
    const [most, least] = [middle + options.within * deviation, middle - options.below * deviation];
    const last = height;
    height = above(grid, (i) => first(i) && last[i] < most && last[i] > least, options.regionMm);
  }
  return height;
}

function above(grid: HeightGrid, ground: (i: number) => boolean, regionMm: number): Float32Array {
  const level = regionMeans(grid, regionMm, 2, (i, out) => {
    if (!ground(i)) return;
    out[0] = grid.z[i];
    out[1] = 1;
  })(0, 1);
  return grid.z.map((z, i) => (Number.isNaN(level[i]) ? z : z - level[i]));
}
