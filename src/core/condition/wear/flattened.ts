import { seededRandom } from '../../geometry/index.ts';
import type { LossField } from '../relief/loss.ts';
import type { WearRelief } from '../relief/relief.ts';

export const flattenedDefaults = {
  trials: 80,
  sample: 1500,
  /** A cell lies on the plane within this many of its own standard deviations. */
  within: 1.5,
  /** Of the clearly lowered cells so many must lie on one plane … */
  leastShare: 0.4,
  /** … whose slope is at most this … */
  mostSlope: 0.08,
  /** … while the reference's heights there spread over at least this many of the plane's residuals. */
  leastSpread: 3,
  /** Cells lowered by so much are looked at, mm. */
  leastLossMm: 0.05,
};

/**
 * Cells pressed flat: of those that lack height, the ones that lie on one nearly level plane although the reference
 * stands at many heights there, as storage under weight leaves them. Plane by random sampling and consensus (Fischler and
 * Bolles 1981), seeded. 1 per cell, all 0 where there is no such plane.
 */
export function flattenedCells(
  relief: WearRelief,
  { sigma }: LossField,
  lacking: Uint8Array,
  options = flattenedDefaults,
): Uint8Array {
  const { reference, subject, difference: d } = relief;
  const cells: number[] = [];
  for (let i = 0; i < lacking.length; i++) if (lacking[i] && d[i] < -options.leastLossMm) cells.push(i);
  const none = new Uint8Array(lacking.length);
  if (cells.length < 50) return none;
  const random = seededRandom(7);
  const sample =
    cells.length <= options.sample ? cells : Array.from({ length: options.sample }, () => random.pick(cells));
  const { width, pitch } = reference;
  const residual = (plane: Plane, i: number): number =>
    subject.z[i] - plane.c - plane.a * (i % width) * pitch - plane.b * Math.floor(i / width) * pitch;
  const near = (plane: Plane, i: number): boolean => Math.abs(residual(plane, i)) < options.within * sigma[i];
  let best: Plane | null = null;
  let bestCount = 0;
  for (let trial = 0; trial < options.trials; trial++) {
    const plane = planeThrough(
      subject.z,
      [random.pick(sample), random.pick(sample), random.pick(sample)],
      width,
      pitch,
    );
    if (!plane || Math.hypot(plane.a, plane.b) > options.mostSlope) continue;
    const count = sample.reduce((sum, i) => sum + (near(plane, i) ? 1 : 0), 0);
    if (count > bestCount) [best, bestCount] = [plane, count];
  }
  if (!best || bestCount < options.leastShare * sample.length) return none;
  const plane = best;
  const on = cells.filter((i) => near(plane, i));
  if (spread(on.map((i) => reference.z[i])) < options.leastSpread * spread(on.map((i) => residual(plane, i))))
    return none;
  for (const i of on) none[i] = 1;
  return none;
}

interface Plane {
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

function planeThrough(z: Float32Array, [i, j, k]: readonly number[], width: number, pitch: number): Plane | null {
  const x = (at: number): number => (at % width) * pitch;
  const y = (at: number): number => Math.floor(at / width) * pitch;
  const det = (x(j) - x(i)) * (y(k) - y(i)) - (x(k) - x(i)) * (y(j) - y(i));
  if (Math.abs(det) < 4) return null;
  const a = ((z[j] - z[i]) * (y(k) - y(i)) - (z[k] - z[i]) * (y(j) - y(i))) / det;
  const b = ((x(j) - x(i)) * (z[k] - z[i]) - (x(k) - x(i)) * (z[j] - z[i])) / det;
  return { a, b, c: z[i] - a * x(i) - b * y(i) };
}

function spread(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length);
}
