import { gaussianFilter, type HeightGrid, withHeights } from '../../geometry/index.ts';

export interface EdgeAwareOptions {
  /** Cut-off of the local means, mm. */
  readonly sizeMm: number;
  /** Steps well above this height count as edges and stay in the base, mm. */
  readonly edgeMm: number;
}

/**
 * Edge-aware smooth base: the guided filter with the relief as its own guide.
 * Over Gaussian means ⟨·⟩ of cut-off `sizeMm`: v = ⟨z²⟩ − ⟨z⟩², a = v/(v + edge²), b = (1 − a)⟨z⟩, base = ⟨a⟩ z + ⟨b⟩.
 * Where the relief varies less than `edgeMm` it is smoothed; a crack or broken edge deeper than that stays in the base,
 * so that what is left after taking the base off has no border beside it.
 * Source: He, Sun and Tang, ECCV 2010; here with Gaussian means that respect the mask instead of square windows.
 */
export function edgeAwareBase(grid: HeightGrid, { sizeMm, edgeMm }: EdgeAwareOptions): HeightGrid {
  const { z, mask } = grid;
  const smooth = (values: Float32Array): Float32Array => gaussianFilter(withHeights(grid, values), sizeMm).z;
  // Heights from their own mean, so that float32 does not lose the variance under a large height.
  const level0 = meanOf(grid);
  const mean = smooth(z.map((value) => value - level0));
  const square = smooth(z.map((value) => (value - level0) ** 2));
  const a = new Float32Array(z.length);
  const b = new Float32Array(z.length);
  for (let i = 0; i < z.length; i++) {
    if (!mask[i]) continue;
    const variance = Math.max(0, square[i] - mean[i] ** 2);
    a[i] = variance / (variance + edgeMm * edgeMm);
    b[i] = (1 - a[i]) * (mean[i] + level0);
  }
  const slope = smooth(a);
  const level = smooth(b);
  return withHeights(
    grid,
    z.map((value, i) => (mask[i] ? slope[i] * value + level[i] : 0)),
  );
}

/** What the edge-aware base leaves: faint relief without borders beside cracks, mm. */
export function edgeAwareDetail(grid: HeightGrid, options: EdgeAwareOptions): HeightGrid {
  const base = edgeAwareBase(grid, options);
  for (let i = 0; i < base.z.length; i++) if (grid.mask[i]) base.z[i] = grid.z[i] - base.z[i];
  return base;
}

function meanOf({ z, mask }: HeightGrid): number {
  let sum = 0;
  let count = 0;
  for (let i = 0; i < z.length; i++)
    if (mask[i]) {
      sum += z[i];
      count++;
    }
  return count > 0 ? sum / count : 0;
}
