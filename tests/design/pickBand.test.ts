import { describe, expect, it } from 'vitest';
import { type BandProfile, pickBands } from '../../src/core/design/legend/pickBand.ts';
import { seededRandom } from '../../src/core/geometry/index.ts';

const stepMm = 0.05;
const bell = (x: number, at: number, wide: number): number => Math.exp(-(((x - at) / wide) ** 2));
/** 1 between two depths, going over within about 0.2 mm. */
const between = (x: number, from: number, to: number): number =>
  1 / ((1 + Math.exp((from - x) / 0.04)) * (1 + Math.exp((x - to) / 0.04)));

/** Two lines at 2 and 6.4 mm, letters from `from` to `to` whose spread grows by `tilt` from the rim inward. */
function profile(from: number, to: number, tilt: number, lineSpread: number): BandProfile {
  const depths = Float64Array.from({ length: 200 }, (_, k) => k * stepMm);
  const lines = (x: number): number => bell(x, 2, 0.2) + bell(x, 6.4, 0.2);
  return {
    fromMm: 0,
    stepMm,
    mean: depths.map((x) => 1.6 * lines(x) - 0.3 * between(x, 1.5, 6.9) * (1 - between(x, from, to)) - 0.05),
    spread: depths.map(
      (x) => 0.15 + lineSpread * lines(x) + between(x, from, to) * (0.5 + (tilt * (x - from)) / (to - from)),
    ),
    share: depths.map(() => 1),
  };
}

describe('pickBands', () => {
  it.each([
    [2.8, 5.6, 0, 0.1],
    [2.8, 5.6, 0.5, 0.1],
    [2.8, 5.6, 0.5, 0.6],
    [2.6, 5.9, -0.2, 0.3],
  ])(
    'letters from %d to %d mm, unevenly strong, beside lines plain or beaded: both ends within 0.1 mm',
    (from, to, tilt, lineSpread) => {
      const [band] = pickBands(profile(from, to, tilt, lineSpread));
      expect(Math.abs(band.lettersOuterMm - from)).toBeLessThan(0.1);
      expect(Math.abs(band.lettersInnerMm - to)).toBeLessThan(0.1);
      expect(band.outerMm).toBeGreaterThan(2);
      expect(band.outerMm).toBeLessThan(from);
      expect(band.innerMm).toBeGreaterThan(to);
      expect(band.innerMm).toBeLessThan(6.4);
    },
  );

  it('goes on over the place where stems run to their feet: the mean is low there, the spread is not', () => {
    const plain = profile(2.8, 5.6, 0, 0.1);
    const foot = (k: number): number => bell(k * stepMm, 5.4, 0.12);
    const stems = (k: number): number => bell(k * stepMm, 5, 0.15);
    const [band] = pickBands({
      ...plain,
      mean: plain.mean.map((value, k) => value + 0.5 * foot(k) - 0.5 * stems(k)),
      spread: plain.spread.map((value, k) => value + 0.2 * foot(k)),
    });
    expect(Math.abs(band.lettersInnerMm - 5.6)).toBeLessThan(0.15);
    expect(band.innerMm).toBeGreaterThan(5.5);
  });

  it('whatever the profile, letters lie within their band', () => {
    const random = seededRandom(8);
    for (let round = 0; round < 200; round++) {
      const values = (least: number): Float64Array => {
        let value = 0.4;
        return Float64Array.from({ length: 160 }, () => {
          value = Math.max(least, Math.min(1.5, value + 0.15 * random.normal()));
          return value;
        });
      };
      const any: BandProfile = {
        fromMm: -1,
        stepMm,
        mean: values(-1),
        spread: values(0),
        share: new Float64Array(160).fill(1),
      };
      for (const { outerMm, lettersOuterMm, lettersInnerMm, innerMm } of pickBands(any)) {
        expect(lettersOuterMm).toBeGreaterThanOrEqual(outerMm);
        expect(lettersInnerMm).toBeGreaterThan(lettersOuterMm);
        expect(innerMm).toBeGreaterThanOrEqual(lettersInnerMm);
      }
    }
  });
});
