import type { HeightGrid } from '../geometry/index.ts';
import { columnOf, quantileOfSorted, rowOf, xOf, yOf } from '../geometry/index.ts';
import type { DifferenceStatistics, ZoneName } from './types.ts';
import { type FaceZones, zoneNames } from './zones.ts';

/**
 * Median, median absolute deviation, root mean square and 95th percentile of |d| of the cells of `map` that carry a
 * difference, over the whole face and by zone. `zones` lies in the same frame; cells outside every zone count in none.
 * Covered: cells with a difference, as a share of the cells that lie in the zone.
 */
export function differenceStatistics(
  map: HeightGrid,
  zones: FaceZones,
): { whole: DifferenceStatistics; zones: (DifferenceStatistics & { zone: ZoneName })[] } {
  const found = zoneNames.map(() => ({ values: [] as number[], cells: 0 }));
  for (let row = 0, i = 0; row < map.height; row++)
    for (let col = 0; col < map.width; col++, i++) {
      const label = labelAt(zones, xOf(map, col), yOf(map, row));
      if (label === 0) continue;
      found[label - 1].cells++;
      if (map.mask[i]) found[label - 1].values.push(map.z[i]);
    }
  const all = {
    values: found.flatMap(({ values }) => values),
    cells: found.reduce((sum, { cells }) => sum + cells, 0),
  };
  return {
    whole: describe(all.values, all.cells),
    zones: zoneNames.map((zone, k) => ({ zone, ...describe(found[k].values, found[k].cells) })),
  };
}

/** Zone label of the cell nearest to (x, y) mm, 0 outside. */
export function labelAt({ grid, labels }: FaceZones, x: number, y: number): number {
  const col = Math.round(columnOf(grid, x));
  const row = Math.round(rowOf(grid, y));
  return col >= 0 && row >= 0 && col < grid.width && row < grid.height ? labels[row * grid.width + col] : 0;
}

function describe(values: number[], cells: number): DifferenceStatistics {
  const sorted = Float64Array.from(values).sort();
  const medianMm = quantileOfSorted(sorted, 0.5);
  const away = sorted.map((value) => Math.abs(value - medianMm)).sort();
  const size = sorted.map(Math.abs).sort();
  const squares = sorted.reduce((sum, value) => sum + value * value, 0);
  return {
    medianMm,
    madMm: quantileOfSorted(away, 0.5),
    rmsMm: Math.sqrt(squares / sorted.length),
    p95Mm: quantileOfSorted(size, 0.95),
    coveredFraction: cells > 0 ? sorted.length / cells : 0,
  };
}
