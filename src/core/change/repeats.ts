import type { Similarity } from '../geometry/index.ts';
import { type Ground, groundOf } from './commonGrid.ts';
import { type CellNoise, loneVertices, noiseByClass, sigmaAt } from './noise.ts';
import { regionDefaults, without } from './regions.ts';
import { type Registered, register } from './register.ts';
import { leastPeak, scaleDefaults, scaleMap } from './scales.ts';
import type { ChangeSide } from './types.ts';

export const repeatDefaults = {
  /** What two scans of one date show of noise's tails is taken so many times: a third scan may show more. */
  tailsTimes: 1.1,
};

/** What two scans of one date show of the instrument: nothing changed between them. */
export interface RepeatNoise {
  /** Of the difference of the two, by class of roughness. */
  readonly noise: CellNoise;
  /** Inflation by scale, in the order of `scaleDefaults.sigmasMm` as far as cells allow. */
  readonly inflation: readonly number[];
  /** The highest peak at any scale over the height that Gaussian noise passes. */
  readonly tails: number;
}

/** Registers a repeat on its own date as a later one would be, and reads its noise. */
export function repeatNoise(date: ChangeSide, repeat: ChangeSide, start: Similarity, pitchMm: number): RepeatNoise {
  const ground = groundOf(date, pitchMm);
  const registered = withoutLone(register(ground, repeat, start, null), ground, []);
  const { difference, sigma } = registered;
  const usable = scaleDefaults.sigmasMm.filter((s) => s > 0.8 * pitchMm);
  const areaMm2 = difference.mask.reduce((sum, m) => sum + m, 0) * pitchMm ** 2;
  const maps = usable.map((s) => scaleMap(difference, sigma, s, null));
  return {
    noise: noiseByClass(ground.roughness, difference.z, (i) => difference.mask[i] === 1),
    inflation: maps.map(({ inflation }) => inflation),
    tails: Math.max(
      ...maps.map(({ t, inflation, sigmaMm }) => {
        const highest = t.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
        return highest / inflation / leastPeak(areaMm2, sigmaMm, scaleDefaults.rate / usable.length);
      }),
    ),
  };
}

/** The difference without single vertices thrown out, and the noise that repeats show where that is more. */
export function withoutLone(registered: Registered, { roughness }: Ground, known: readonly RepeatNoise[]): Registered {
  const { difference } = registered;
  const sigma = registered.sigma.map((own, i) => (own > 0 ? Math.max(own, repeated(roughness[i], known)) : 0));
  const lone = loneVertices(difference, sigma);
  return { ...registered, sigma, difference: without(difference, lone) };
}

/** Noise of a difference between dates as repeats tell it: each date's own variance is half of its repeat's. */
function repeated(roughness: number, known: readonly RepeatNoise[]): number {
  let sum = 0;
  for (const { noise } of known) sum += sigmaAt(noise, roughness) ** 2;
  return known.length > 0 ? Math.sqrt(sum / known.length) : 0;
}

/** Least inflation by scale, and how far peaks of noise reach beyond Gaussian ones. */
export function tailsOf(known: readonly RepeatNoise[]): { inflation: number[]; tails: number } {
  const inflation = scaleDefaults.sigmasMm.map((_, k) =>
    known.length > 0 ? Math.hypot(...known.map((each) => each.inflation[k] ?? 1)) / Math.sqrt(known.length) : 1,
  );
  const tails = known.reduce((most, each) => Math.max(most, repeatDefaults.tailsTimes * each.tails), 1);
  return { inflation, tails: Math.max(regionDefaults.overGaussian, tails) };
}
