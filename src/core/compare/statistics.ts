import { type FaceZones, type ZoneName, zoneNames } from '../design/index.ts';
import type { HeightGrid } from '../geometry/index.ts';
import { columnOf, median, quantile, rootMeanSquare, rowOf, xOf, yOf } from '../geometry/index.ts';
import type { DifferenceStatistics } from './types.ts';

/**
 * Median, median absolute deviation, root mean square and 95th percentile of |d| of the cells of `map` that carry a
 * difference, over the whole image and by zone. `zones` lies in the same frame; cells outside every zone count in none.
 * Covered: cells with a difference, as a share of the cells that lie in the zone.
 */
export function differenceStatistics(
  map: HeightGrid,
  zones: FaceZones,
): { whole: DifferenceStatistics; zones: (DifferenceStatistics & { zone: ZoneName })[] } {
  const labels = labelsOn(map, zones);
  const cells = new Float64Array(zoneNames.length + 1);
  for (let i = 0; i < labels.length; i++) cells[labels[i]]++;
  const all = cells.reduce((sum, count) => sum + count, -cells[0]);
  return {
    whole: describe(valuesIn(map, labels, 1, zoneNames.length), all),
    zones: zoneNames.map((zone, k) => ({ zone, ...describe(valuesIn(map, labels, k + 1, k + 1), cells[k + 1]) })),
  };
}

/** Values of the cells whose label lies from `first` to `last`. */
function valuesIn({ z, mask }: HeightGrid, labels: Uint8Array, first: number, last: number): Float32Array {
  const values = new Float32Array(z.length);
  let n = 0;
  for (let i = 0; i < z.length; i++) if (mask[i] === 1 && labels[i] >= first && labels[i] <= last) values[n++] = z[i];
  return values.slice(0, n);
}

/** The zone label of every cell of a map in the same frame. */
function labelsOn(map: HeightGrid, { grid, labels }: FaceZones): Uint8Array {
  const out = new Uint8Array(map.z.length);
  const columns = Int32Array.from({ length: map.width }, (_, col) => Math.round(columnOf(grid, xOf(map, col))));
  for (let row = 0, i = 0; row < map.height; row++) {
    const r = Math.round(rowOf(grid, yOf(map, row)));
    const within = r >= 0 && r < grid.height;
    for (let col = 0; col < map.width; col++, i++) {
      const c = columns[col];
      if (within && c >= 0 && c < grid.width) out[i] = labels[r * grid.width + c];
    }
  }
  return out;
}

/** Quantiles are taken from at most this many values, evenly spread over the face. */
const mostRanked = 100_000;

function describe(values: Float32Array, cells: number): DifferenceStatistics {
  const stride = Math.max(1, Math.ceil(values.length / mostRanked));
  const ranked = new Float32Array(Math.ceil(values.length / stride));
  for (let i = 0; i < ranked.length; i++) ranked[i] = values[i * stride];
  const medianMm = median(ranked);
  return {
    medianMm,
    madMm: median(ranked.map((value) => Math.abs(value - medianMm))),
    rmsMm: rootMeanSquare(values),
    p95Mm: quantile(ranked.map(Math.abs), 0.95),
    coveredFraction: cells > 0 ? values.length / cells : 0,
  };
}
