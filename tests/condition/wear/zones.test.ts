import { describe, expect, it } from 'vitest';
import type { LossField } from '../../../src/core/condition/relief/loss.ts';
import type { WearRelief } from '../../../src/core/condition/relief/relief.ts';
import type { WavelengthBand, WearState } from '../../../src/core/condition/types.ts';
import { type WearMap, wearLabel } from '../../../src/core/condition/wear/labels.ts';
import { wearZones } from '../../../src/core/condition/wear/zones.ts';
import type { ZoneName } from '../../../src/core/design/index.ts';
import { emptyGrid } from '../../../src/core/geometry/index.ts';

const grid = emptyGrid(0, 9.9, 0, 9.9, 0.1);
const n = grid.z.length;
const cells = 100;

interface Made {
  /** Height of the reference over the ground and the difference, by cell, mm. */
  readonly height?: (i: number) => number;
  readonly difference?: (i: number) => number;
  /** Labels by the hundredth of the zone that a cell lies in, so that shares are exact. */
  readonly state?: (hundredth: number) => WearState | null;
  readonly sigma?: number;
  readonly bands?: readonly WavelengthBand[];
}

function zone({ height = () => 0.5, difference = () => 0, state = () => 'sharp', sigma = 0, bands = [] }: Made) {
  const heights = Float32Array.from({ length: n }, (_, i) => height(i));
  const relief = {
    reference: { ...grid, z: heights, mask: new Uint8Array(n).fill(1) },
    inside: new Uint8Array(n).fill(1),
    image: new Uint8Array(n).fill(1),
    difference: Float32Array.from({ length: n }, (_, i) => difference(i)),
  } as unknown as WearRelief;
  const labels = Uint8Array.from({ length: n }, (_, i) => {
    const one = state(Math.floor(i / cells));
    return one ? wearLabel(one) : 0;
  });
  const loss = { height: heights, sigma: new Float32Array(n).fill(sigma) } as unknown as LossField;
  const zones = new Map<ZoneName, Uint8Array>([['whole', new Uint8Array(n).fill(1)]]);
  return wearZones(relief, loss, { labels } as unknown as WearMap, zones, bands)[0];
}

const band = (gain: number, coherence = 0.9): WavelengthBand => ({ fromMm: 1, toMm: 2, gain, coherence });
const share =
  (count: number, one: WearState, other: WearState = 'sharp') =>
  (k: number): WearState =>
    k < count ? one : other;

describe('the height that a zone keeps', () => {
  it('is the volume left of what stands up, against the reference', () => {
    const kept = zone({ height: (i) => (i % 2 ? 0.6 : 0.4), difference: (i) => (i % 2 ? -0.15 : -0.05) });
    expect(kept.heightKept).toBeCloseTo(1 - 0.1 / 0.5, 5);
    expect(zone({ difference: () => 0.05 }).heightKept).toBeCloseTo(1.1, 5);
  });

  it('is none where another design stands, however much of one is left', () => {
    const letters = (period: number) => (i: number) => (i % period < period / 2 ? 0.6 : 0.2);
    const [own, other] = [letters(8), letters(12)];
    expect(zone({ height: own, difference: (i) => other(i) - own(i) })).toMatchObject({
      ...{ state: 'cannotJudge', heightKept: Number.NaN },
    });
    for (const kept of [0.9, 0.3, 0.02])
      expect(zone({ height: own, difference: (i) => (kept - 1) * own(i) }).heightKept).toBeCloseTo(kept, 5);
    // Of another design next to nothing is left: the zone is as low as it is.
    const flat = zone({ height: own, difference: (i) => 0.2 * other(i) - own(i), state: () => 'lower' });
    expect(flat.state).toBe('lower');
  });

  it('is measured on what stands a quarter of the typical height or more', () => {
    const low = (high: number) =>
      zone({ height: (i) => (i % 4 ? 0.4 : high), difference: (i) => (i % 4 ? 0 : -0.05) }).heightKept;
    expect(low(0.101)).toBeLessThan(0.97);
    expect(low(0.099)).toBeCloseTo(1, 6);
  });

  it('leaves out what is lost, added, unjudged, outside, or without data', () => {
    for (const other of ['lost', 'added', 'cannotJudge', null] as const)
      expect(
        zone({ state: (k) => (k < 50 ? other : 'sharp'), difference: (i) => (i < n / 2 ? -0.3 : -0.1) }).heightKept,
      ).toBeCloseTo(0.8, 5);
    expect(zone({ difference: (i) => (i < n / 2 ? Number.NaN : -0.1) }).heightKept).toBeCloseTo(0.8, 5);
    expect(zone({ state: share(50, 'clogged'), difference: (i) => (i < n / 2 ? -0.3 : -0.1) }).heightKept).toBeCloseTo(
      0.6,
      5,
    );
  });

  it('has the uncertainty of its noise, of levelling by 0.008 mm, and of the scans’ cells', () => {
    // One independent cell for 1.2 mm × 1.2 mm: 10,000 cells of a tenth of a millimetre are 69.4.
    const level = zone({ sigma: 0.05 });
    expect(level.heightKeptSd).toBeCloseTo(Math.hypot(0.05 / Math.sqrt(n / 144), 0.008) / 0.5, 4);
    expect(zone({}).heightKeptSd).toBeCloseTo(0.016, 4);
    // Ridges of one cell in two: one linear interpolation's blur takes a sixth of their height twice over.
    const narrow = zone({ height: (i) => (i % 2 ? 0.6 : 0.4) });
    expect(narrow.heightKeptSd).toBeCloseTo(0.016, 2);
    const ridges = zone({ height: (i) => (i % 4 === 0 ? 0.6 : 0) });
    expect(ridges.heightKeptSd).toBeCloseTo(Math.hypot(0.008 / 0.6, 1 / 6), 2);
  });

  it('is not known from fewer than ten cells', () => {
    expect(zone({ height: (i) => (i < 10 ? 0.5 : 0) }).heightKept).toBe(1);
    expect(zone({ height: (i) => (i < 9 ? 0.5 : 0) }).heightKept).toBeNaN();
  });
});

describe('the state of a zone', () => {
  const lowered = { difference: () => -0.2 };

  it('is the commonest but sharp, from twelve in a hundred on', () => {
    expect(zone({ ...lowered, state: share(12, 'lower') })).toMatchObject({ state: 'lower', fraction: 0.12 });
    const little = { difference: () => -0.06 };
    expect(zone({ ...little, state: share(12, 'lower') })).toMatchObject({ state: 'lower', fraction: 0.12 });
    expect(zone({ ...little, state: share(11, 'lower') })).toMatchObject({ state: 'sharp', fraction: 0.89 });
    expect(zone({ ...lowered, state: (k) => (k < 20 ? 'clogged' : k < 41 ? 'lost' : 'sharp') })).toMatchObject({
      state: 'lost',
      fraction: 0.21,
    });
  });

  it('is not sharp where surely more than fifteen in a hundred of its height are gone, however few cells are lower one by one', () => {
    expect(zone({ difference: () => -0.08, state: share(3, 'lower') })).toMatchObject({
      state: 'lower',
      fraction: 0.03,
    });
    expect(zone({ difference: () => -0.07, state: share(3, 'lower') })).toMatchObject({
      state: 'sharp',
      fraction: 0.97,
    });
    // A fifth of a height that levelling knows to a sixth is not surely gone.
    expect(zone({ difference: () => -0.01, height: () => 0.05 })).toMatchObject({ state: 'sharp' });
  });

  it('counts among what is judged, and is not said where less than three in ten is', () => {
    const unjudged = (count: number) =>
      zone({ ...lowered, state: (k) => (k < count ? 'cannotJudge' : k < count + 5 ? 'lower' : 'sharp') });
    expect(unjudged(70)).toMatchObject({ state: 'lower' });
    expect(unjudged(70).fraction).toBeCloseTo(5 / 30, 9);
    expect(unjudged(71)).toMatchObject({ state: 'cannotJudge', fraction: 0.71 });
    expect(zone({ state: () => null })).toMatchObject({ state: 'cannotJudge', fraction: 0 });
  });

  it('says that height is gone only where more is than two standard deviations', () => {
    const by = (mm: number, state: WearState) => zone({ state: share(50, state), difference: () => -mm }).state;
    // The uncertainty of levelling alone: 0.016 of the height, half a millimetre.
    expect(by(0.0165, 'lower')).toBe('lower');
    expect(by(0.0155, 'lower')).toBe('cannotJudge');
    expect(by(0, 'clogged')).toBe('clogged');
  });

  it('is blurred where the short wavelengths keep less than six tenths of the long ones, both in agreement', () => {
    const of = (...bands: WavelengthBand[]) => zone({ bands }).state;
    expect(of(band(0.59), band(1))).toBe('blurred');
    expect(of(band(0.61), band(1))).toBe('sharp');
    expect(of(band(0.59), band(0.9), band(1))).toBe('blurred');
    expect(of(band(0.59), band(1, 0.49))).toBe('sharp');
    expect(of(band(0.59, 0.49), band(1), band(1))).toBe('sharp');
    expect(of(band(0.59, 0.51), band(1, 0.51))).toBe('blurred');
    expect(of(band(0.1))).toBe('sharp');
    expect(zone({ bands: [band(0.5), band(1)], ...lowered, state: share(20, 'lower') }).state).toBe('lower');
  });

  it('is blurred where two octaves that carried relief are gone from the subject altogether, and not where they are elsewhere', () => {
    const gone = (fromMm: number, amplitude: number, signal = 0.9): WavelengthBand => ({
      ...{ fromMm, toMm: 2 * fromMm, gain: 0.02, coherence: 0.05, amplitude, signal },
    });
    const long: WavelengthBand = { ...band(0.95), fromMm: 1, toMm: 2 };
    const of = (...bands: WavelengthBand[]) => zone({ bands }).state;
    expect(of(gone(0.25, 0.1), gone(0.5, 0.3), long)).toBe('blurred');
    expect(of(gone(0.5, 0.3), long)).toBe('sharp');
    expect(of(gone(0.25, 0.9), gone(0.5, 0.95), long)).toBe('sharp');
    expect(of(gone(0.25, 0.1, 0.3), gone(0.5, 0.3, 0.4), long)).toBe('sharp');
    expect(of(gone(0.25, 0.1), gone(0.5, 0.3))).toBe('sharp');
    // What lies lower there is blurred before it is lower; what is lost or added is so all the same.
    const bands = [gone(0.25, 0.1), gone(0.5, 0.3), long];
    expect(zone({ ...lowered, bands, state: share(60, 'lower') })).toMatchObject({ state: 'blurred', fraction: 1 });
    expect(zone({ ...lowered, bands, state: share(60, 'lost') }).state).toBe('lost');
  });

  it('says nothing of a height where too little is judged', () => {
    expect(zone({ ...lowered, state: share(71, 'cannotJudge') }).heightKept).toBeNaN();
    expect(zone({ ...lowered, state: share(70, 'cannotJudge') }).heightKept).toBeCloseTo(0.6, 5);
  });
});
