import { parallelReliefKernel, type RingSums } from '../../../kernels/index.ts';
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

/** The profile of one of some reliefs along parallels to a curve from `fromMm` to `toMm` inward; nearest cells are read. */
export type ProfileAlong = (
  relief: number,
  curve: BaseCurve,
  fromMm: number,
  toMm: number,
  stepMm: number,
) => RingProfile;

/** By a compiled kernel where the engine lets it run, which gives the same sums as `ringSumsPlainly`. */
export function profilesOf(reliefs: readonly HeightGrid[]): ProfileAlong {
  const kernel = parallelReliefKernel(reliefs);
  return (relief, curve, fromMm, toMm, stepMm) => {
    const steps = stepsBetween(fromMm, toMm, stepMm);
    const sums =
      kernel?.sums(relief, curve, steps, fromMm, stepMm) ??
      ringSumsPlainly(reliefs[relief], curve, steps, fromMm, stepMm);
    return profileFrom(sums, curve, fromMm, stepMm);
  };
}

/** The profile of a relief that is asked once. */
export const ringProfile = (
  grid: HeightGrid,
  curve: BaseCurve,
  fromMm: number,
  toMm: number,
  stepMm: number,
): RingProfile =>
  profileFrom(ringSumsPlainly(grid, curve, stepsBetween(fromMm, toMm, stepMm), fromMm, stepMm), curve, fromMm, stepMm);

const stepsBetween = (fromMm: number, toMm: number, stepMm: number): number =>
  Math.max(1, Math.round((toMm - fromMm) / stepMm) + 1);

/** The sums by which a profile is made. */
export function ringSumsPlainly(
  grid: HeightGrid,
  curve: BaseCurve,
  steps: number,
  fromMm: number,
  stepMm: number,
): RingSums {
  const sums = { sum: new Float64Array(steps), weight: new Float64Array(steps), count: new Float64Array(steps) };
  for (let i = 0; i < curve.x.length; i++) addInward(grid, curve, i, fromMm, stepMm, sums);
  return sums;
}

function profileFrom(sums: RingSums, curve: BaseCurve, fromMm: number, stepMm: number): RingProfile {
  const explained = meansOf(sums, curve.x.length);
  return { fromMm, stepMm, mean: sums.sum, share: sums.count, explained: explained * stepMm * curve.spacingMm };
}

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
