import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/geometry/index.ts';
import type { Place } from '../../src/core/judge/patches.ts';
import { weigh } from '../../src/core/judge/rivals.ts';

/** Places over a face of 30 mm: a smooth flow, errors of 10 µm, and each shifted by `scatterMm`; `lost` of them anywhere. */
function places(scatterMm: number, seed: number, lost = 0, flowMm = 0.1): Place[] {
  const random = seededRandom(seed);
  return Array.from({ length: 60 }, (_, k) => {
    const [x, y] = [random.between(-13, 13), random.between(-13, 13)];
    const away = k < lost * 60;
    const error = (): number => 0.01 * random.normal() + scatterMm * random.normal();
    return {
      x,
      y,
      dx: away ? random.between(-0.9, 0.9) : flowMm * (x / 15) ** 2 + error(),
      dy: away ? random.between(-0.9, 0.9) : flowMm * (y / 15) * (x / 15) + error(),
      turnDeg: 0,
      correlation: 0.95,
      covariance: [1e-4, 0, 1e-4] as const,
      whole: 1,
      kept: 1,
      relief: [0.1, 0.1] as const,
      inside: true,
      doubt: 0.03,
    };
  });
}
const score = (patches: Place[], sizeMm = 30) =>
  weigh({ patches, absent: [], sizeMm, windowMm2: 3.24, spacingMm: 0.005, share: 0.8 });

describe('one matrix over its rivals', () => {
  it('is favoured where places follow one smooth flow, however strong the flow', () => {
    for (const flow of [0, 0.1, 0.5]) expect(score(places(0.008, 1, 0, flow)).score).toBeGreaterThan(3);
  });
  it('is disfavoured where each letter is shifted, and the more so the farther', () => {
    const at = [0.04, 0.07, 0.15].map((scatter) => score(places(scatter, 2)).score);
    expect(at[0]).toBeLessThan(-2);
    expect(at[1]).toBeLessThan(at[0]);
    expect(at[2]).toBeLessThan(-5);
  });
  it('lets wax flow the farther the longer an image beyond 45 mm is, and a hand no farther', () => {
    const on = (sizeMm: number): Place[] =>
      places(0.032, 4).map((place) => ({ ...place, x: (place.x * sizeMm) / 30, y: (place.y * sizeMm) / 30 }));
    expect(score(on(90), 90).overCopy).toBeGreaterThan(score(on(45), 45).overCopy + 1);
    expect(score(on(20), 20).overCopy).toBeCloseTo(score(on(45), 45).overCopy, 0);
  });
  it('is not turned round by accidents: a fifth of the places anywhere costs strength only', () => {
    const sound = score(places(0.008, 3)).score;
    const hurt = score(places(0.008, 3, 0.2)).score;
    expect(hurt).toBeLessThan(sound);
    expect(hurt).toBeGreaterThan(2);
  });
  it('tells the motif apart: with the legend alone cut anew it stays in its place, cut by hand it is off, too', () => {
    const [still, off] = [places(0.005, 6), places(0.07, 6)];
    const recut = still.map((place, i) => (Math.hypot(place.x, place.y) > 9 ? off[i] : place));
    expect(score(recut).score).toBeLessThan(-3);
    expect(score(recut).motif).toBeGreaterThan(-1);
    expect(score(off).motif).toBeLessThan(-2);
  });
  it('weighs a legend cut anew where many places lie nowhere near', () => {
    expect(score(places(0.005, 6)).legendAnew).toBeNull();
    expect(score(places(0.07, 6)).legendAnew).toBeNull();
    const [still, copied, lost] = [places(0.005, 6), places(0.15, 6), places(0.15, 6, 1)];
    const inMotif = ({ x, y }: Place): boolean => Math.hypot(x, y) < 5.5;
    const under = (motif: Place[]): Place[] =>
      copied.map((place, i) => (inMotif(place) ? motif[i] : i % 2 === 0 ? lost[i] : place));
    expect(score(under(still)).legendAnew).toBeGreaterThan(3);
    expect(score(under(copied)).legendAnew).toBeLessThan(-3);
  });
  it('holds one matrix against its legend cut anew, for which accidents are too evenly spread', () => {
    const [still, lost] = [places(0.005, 6), places(0.15, 6, 1)];
    const without = (isLost: (place: Place, i: number) => boolean): Place[] =>
      still.map((place, i) => (isLost(place, i) ? lost[i] : place));
    expect(score(without(({ x, y }) => Math.hypot(x, y) > 9)).overLegendAnew).toBeLessThan(-3);
    expect(score(without((_, i) => i % 4 === 0)).overLegendAnew).toBeGreaterThan(3);
    expect(score(without((_, i) => i % 20 === 0)).overLegendAnew).toBeNull();
  });
  it('names a scatter near the true one', () => {
    expect(score(places(0.12, 4)).scatterMm).toBeGreaterThan(0.08);
    expect(score(places(0.12, 4)).scatterMm).toBeLessThan(0.2);
    expect(score(places(0.005, 4)).scatterMm).toBeLessThan(0.02);
  });
  it('has an interval that holds the score, and is the same in any order of the places', () => {
    const list = places(0.01, 5);
    const { score: whole, interval } = score(list);
    expect(interval[0]).toBeLessThanOrEqual(whole);
    expect(interval[1]).toBeGreaterThanOrEqual(whole);
    expect(score([...list].reverse()).score).toBeCloseTo(whole, 6);
  });
});
