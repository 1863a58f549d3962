import type { HeightGrid } from '../geometry/index.ts';
import { columnOf, quantileOfSorted, rootMeanSquare, rowOf, xOf, yOf } from '../geometry/index.ts';
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
  const size = map.z.length;
  const labels = new Uint8Array(size);
  const cells = new Float64Array(zoneNames.length + 1);
  for (let row = 0, i = 0; row < map.height; row++)
    for (let col = 0; col < map.width; col++, i++) {
      labels[i] = labelAt(zones, xOf(map, col), yOf(map, row));
      cells[labels[i]]++;
    }
  const valuesIn = (inside: (label: number) => boolean): Float32Array =>
    map.z.filter((_, i) => map.mask[i] === 1 && inside(labels[i]));
  const all = cells.reduce((sum, count) => sum + count, -cells[0]);
  return {
    whole: describe(
      valuesIn((label) => label > 0),
      all,
    ),
    zones: zoneNames.map((zone, k) => ({
      zone,
      ...describe(
        valuesIn((label) => label === k + 1),
        cells[k + 1],
      ),
    })),
  };
}

/** Zone label of the cell nearest to (x, y) mm, 0 outside. */
export function labelAt({ grid, labels }: FaceZones, x: number, y: number): number {
  const col = Math.round(columnOf(grid, x));
  const row = Math.round(rowOf(grid, y));
  return col >= 0 && row >= 0 && col < grid.width && row < grid.height ? labels[row * grid.width + col] : 0;
}

/** Quantiles are taken from at most this many values, evenly spread over the face. */
const mostSorted = 100_000;

function describe(values: Float32Array, cells: number): DifferenceStatistics {
  const stride = Math.max(1, Math.ceil(values.length / mostSorted));
  const sorted = values.filter((_, i) => i % stride === 0).sort();
  const medianMm = quantileOfSorted(sorted, 0.5);
  const away = sorted.map((value) => Math.abs(value - medianMm)).sort();
  const size = sorted.map(Math.abs).sort();
  return {
    medianMm,
    madMm: quantileOfSorted(away, 0.5),
    rmsMm: rootMeanSquare(values),
    p95Mm: quantileOfSorted(size, 0.95),
    coveredFraction: cells > 0 ? values.length / cells : 0,
  };
}
