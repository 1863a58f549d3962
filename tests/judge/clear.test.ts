import { describe, expect, it } from 'vitest';
import { type Face, noiseOf } from '../../src/core/face/index.ts';
import { overlapsAt } from '../../src/core/fit/index.ts';
import { bandPass, seededRandom, xOf, yOf } from '../../src/core/geometry/index.ts';
import { clearDefaults, clearSignificance, shownRelief } from '../../src/core/judge/clear.ts';
import { bumps } from '../fit/relief.ts';
import { analyticFace, disc as discOf } from './analyticFace.ts';

const sizeMm = 20;
const relief = bumps(5, 10);

const faceOf = (has: (x: number, y: number) => boolean, noiseMm = 0, heightsBy = 1, pitch = 0.1): Face =>
  analyticFace((x, y) => heightsBy * relief.height(x, y), has, { noiseMm, pitch });
const disc = discOf();
const half = (x: number, y: number): boolean => disc(x, y) && y > 0;
/** Root mean square of what the search sees of a face, mm. */
function heightOf({ image }: Face): number {
  const { z, mask } = bandPass(image, sizeMm / 50, sizeMm / 9);
  let [sum, n] = [0, 0];
  for (let i = 0; i < z.length; i++) if (mask[i]) [sum, n] = [sum + z[i] * z[i], n + 1];
  return Math.sqrt(sum / n);
}

describe('how clear two faces are to one another', () => {
  const whole = faceOf(disc);
  const turns = Array.from({ length: clearDefaults.turns }, (_, k) => (2 * Math.PI * k) / clearDefaults.turns);

  it('is atanh of the correlation kept times the root of the fewest cells in common, Fisher’s z', () => {
    const other = faceOf(half);
    for (const [a, b] of [
      [whole, whole],
      [whole, other],
      [other, other],
    ]) {
      const cells = Math.min(...overlapsAt(a.image, b.image, sizeMm, turns));
      expect(clearSignificance(a, b, sizeMm)).toBeCloseTo(Math.atanh(0.6) * Math.sqrt(cells - 3), 4);
    }
  });

  it('looks at the least favourable turn: two halves have least in common a quarter turned', () => {
    const [a, b] = [faceOf(half), faceOf(half)];
    const straight = overlapsAt(a.image, b.image, sizeMm, [0])[0];
    const least = (clearSignificance(a, b, sizeMm) / Math.atanh(0.6)) ** 2 + 3;
    expect(least).toBeLessThan(0.8 * straight);
    expect(least).toBeGreaterThan(0.4 * straight);
  });

  it('falls with noise on either as a correlation falls: r = 1/√(1 + σ²/S²) a face', () => {
    const noiseMm = heightOf(whole);
    const ratio = (a: Face, b: Face): number =>
      clearSignificance(a, b, sizeMm) / clearSignificance(whole, whole, sizeMm);
    const noisy = faceOf(disc, noiseMm);
    expect(ratio(noisy, whole)).toBeCloseTo(Math.atanh(0.6 * Math.SQRT1_2) / Math.atanh(0.6), 4);
    expect(ratio(whole, noisy)).toBeCloseTo(Math.atanh(0.6 * Math.SQRT1_2) / Math.atanh(0.6), 4);
    expect(ratio(noisy, noisy)).toBeCloseTo(Math.atanh(0.3) / Math.atanh(0.6), 4);
  });

  it('expects less of what differs in depth by more than six tenths, whichever is the lower', () => {
    const kept = (by: number): number =>
      clearSignificance(whole, faceOf(disc, 0, by), sizeMm) / clearSignificance(whole, whole, sizeMm);
    const less = Math.atanh(0.45) / Math.atanh(0.6);
    expect([0.5, 0.58, 0.62, 1.6, 1.7, 3].map(kept).map((each) => each < 0.99)).toEqual([
      true,
      true,
      false,
      false,
      true,
      true,
    ]);
    expect(kept(0.5)).toBeCloseTo(less, 4);
    expect(kept(3)).toBeCloseTo(less, 4);
  });

  it('counts the same cells of a coarser scan: what it does not resolve is in its noise, not in its cells', () => {
    const coarse = faceOf(disc, 0, 1, 0.32);
    const cells = Math.min(...overlapsAt(whole.image, coarse.image, sizeMm, turns));
    expect(clearSignificance(whole, coarse, sizeMm)).toBeCloseTo(Math.atanh(0.6) * Math.sqrt(cells - 3), 4);
    const noisy = faceOf(disc, heightOf(coarse), 1, 0.32);
    expect(clearSignificance(whole, noisy, sizeMm)).toBeCloseTo(
      Math.atanh(0.6 * Math.SQRT1_2) * Math.sqrt(cells - 3),
      1,
    );
  });

  it('is nothing where next to nothing is left', () => {
    const speck = faceOf((x, y) => Math.hypot(x, y) < 0.6);
    expect(clearSignificance(whole, speck, sizeMm)).toBe(0);
  });
});

describe('relief all over a face', () => {
  it('is the median height over the 90 % one: most of a table has none', () => {
    const design = shownRelief(faceOf(disc), sizeMm).spread;
    const table = faceOf(disc);
    for (let i = 0; i < table.image.z.length; i++)
      if (Math.hypot(xOf(table.image, i % table.image.width), yOf(table.image, Math.floor(i / table.image.width))) > 4)
        table.image.z[i] = 0;
    expect(design).toBeGreaterThan(0.2);
    expect(shownRelief(table, sizeMm).spread).toBeLessThan(0.1 * design);
  });

  it('does not change with depth', () => {
    expect(shownRelief(faceOf(disc, 0, 3), sizeMm).spread).toBeCloseTo(shownRelief(faceOf(disc), sizeMm).spread, 6);
  });
});

describe('nothing but noise on a face', () => {
  /** A face with the scan's noise, white, so many times as strong as the design is deep. */
  const scanned = (heightsBy: number, noiseMm: number, pitch = 0.1): Face => {
    const face = faceOf(disc, 0, heightsBy, pitch);
    const random = seededRandom(3);
    for (let i = 0; i < face.image.z.length; i++) face.image.z[i] += noiseMm * random.normal();
    return { ...face, ...noiseOf(face.image) };
  };

  it('is seen of a bare table at any noise and pitch', () => {
    for (const [noise, pitch] of [
      [0.005, 0.1],
      [0.02, 0.1],
      [0.02, 0.2],
    ])
      expect(shownRelief(scanned(0, noise, pitch), sizeMm).onlyNoise).toBe(true);
  });

  it('is never said of a design that stands twice as high as its noise, nor of one scanned without', () => {
    for (const noise of [0, 0.1, 0.25, 0.5])
      expect(shownRelief(scanned(1, noise * heightOf(faceOf(disc))), sizeMm).onlyNoise).toBe(false);
  });
});
