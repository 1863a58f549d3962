import type { HeightGrid } from '../../geometry/index.ts';
import type { BaseCurve } from './baseCurve.ts';

/** What is found at each depth inward from a base curve, over all positions round it. */
export interface RingProfile {
  /** Depth of the first entry and step, mm. */
  readonly fromMm: number;
  readonly stepMm: number;
  /** Mean over positions. */
  readonly mean: Float64Array;
  /** Positions with data, as a share of all. */
  readonly share: Float64Array;
  /** Σ over depths of area · mean², mm² × (unit of the relief)²: what a relief that runs parallel to the curve explains. */
  readonly explained: number;
}

/** Mean of a relief along parallels to the curve from `fromMm` to `toMm` inward; nearest cells are read. */
export function ringProfile(
  grid: HeightGrid,
  curve: BaseCurve,
  fromMm: number,
  toMm: number,
  stepMm: number,
): RingProfile {
  const steps = Math.max(1, Math.round((toMm - fromMm) / stepMm) + 1);
  const sums = { sum: new Float64Array(steps), weight: new Float64Array(steps), count: new Float64Array(steps) };
  const n = curve.x.length;
  for (let i = 0; i < n; i++) addInward(grid, curve, i, fromMm, stepMm, sums);
  const explained = meansOf(sums, n);
  return { fromMm, stepMm, mean: sums.sum, share: sums.count, explained: explained * stepMm * curve.spacingMm };
}

/** By depth: weighted heights, their weights, and how many positions have data. */
type RingSums = Readonly<Record<'sum' | 'weight' | 'count', Float64Array>>;

/** Adds what lies inward of position i; a function of its own, so that the engine compiles it once. */
function addInward(
  { width, height, z, mask, pitch, left, top }: HeightGrid,
  { x, y, nx, ny, reach, bend }: BaseCurve,
  i: number,
  fromMm: number,
  stepMm: number,
  { sum, weight, count }: RingSums,
): void {
  const deepest = Math.min(sum.length, Math.floor((reach[i] - fromMm) / stepMm) + 1);
  // In 65,536ths of a cell: as good as the nearest cell needs, and whole numbers step faster.
  let c = Math.floor(65536 * ((x[i] + fromMm * nx[i] - left) / pitch + 0.5));
  let r = Math.floor(65536 * ((top - y[i] - fromMm * ny[i]) / pitch + 0.5));
  const dc = Math.floor((65536 * stepMm * nx[i]) / pitch + 0.5);
  const dr = Math.floor((65536 * -stepMm * ny[i]) / pitch + 0.5);
  // Corners bend without limit and stand for little length.
  const shrink = Math.max(0, Math.min(bend[i], 1 / Math.max(1e-9, reach[i])));
  const first = 1 - shrink * fromMm;
  const less = stepMm * shrink;
  for (let k = 0; k < deepest; k++, c += dc, r += dr) {
    const col = c >> 16;
    const row = r >> 16;
    if (col < 0 || row < 0 || col >= width || row >= height) continue;
    const at = row * width + col;
    if (!mask[at]) continue;
    const w = Math.max(0, first - less * k);
    sum[k] += w * z[at];
    weight[k] += w;
    count[k]++;
  }
}

/** Sums to means and counts to shares of n positions; Σ over depths of weight · mean². */
function meansOf({ sum, weight, count }: RingSums, n: number): number {
  let explained = 0;
  for (let k = 0; k < sum.length; k++) {
    if (weight[k] > 0) sum[k] /= weight[k];
    // Few positions have a large mean by chance: n/(n + 24) of its square is believed.
    explained += weight[k] * sum[k] * sum[k] * (count[k] / (count[k] + 24));
    count[k] /= n;
  }
  return explained;
}
