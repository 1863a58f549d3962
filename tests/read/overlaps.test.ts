import { describe, expect, it } from 'vitest';
import { overlapOf, overlapsAmong } from '../../src/core/read/index.ts';
import { fragment, other, side } from './fragmentOfDisc.ts';

const whole = fragment('whole', () => true);

describe('fragments that overlap', () => {
  it.each([0, 20, 45, 70, 90])(
    'pieces parted at %i° are of one impression, laid beside their place by up to the noise of edges',
    (deg) => {
      for (const mm of [0.4, 0, -0.4, -0.8])
        expect(overlapOf(fragment('a', side(deg, mm)), fragment('b', other(deg, mm)))).toBeNull();
    },
  );

  it.each([0, 20, 45, 70, 90])('beyond it they are of two: how much both carry, how far in, at %i°', (deg) => {
    const found = overlapOf(fragment('a', side(deg, -1.5)), fragment('b', other(deg, -1.5)));
    expect(found).toMatchObject({ code: 'twoImpressions', one: 'a', two: 'b' });
    // A strip 3 mm wide through the middle of a disc of 20 mm radius.
    expect(found?.mm2).toBeGreaterThan(117);
    expect(found?.mm2).toBeLessThan(122);
    expect(found?.depthMm).toBeCloseTo(1.5, 0);
  });

  it('is told where no edges face one another', () => {
    expect(overlapOf(whole, whole)?.mm2).toBeCloseTo(Math.PI * 400, -1);
    expect(
      overlapOf(
        whole,
        fragment('within', (x, y) => Math.hypot(x - 5, y) < 6),
      )?.depthMm,
    ).toBeCloseTo(6, 0);
  });

  it('is not the slope of a break below the other face', () => {
    const sloping = fragment(
      'a',
      (x) => x > -5,
      (x) => Math.min(0, x),
    );
    expect(
      overlapOf(
        sloping,
        fragment('b', (x) => x < 0),
      ),
    ).toBeNull();
  });

  it('exchanged, it stays', () => {
    const [a, b] = [fragment('a', side(10, -2)), fragment('b', other(10, -2), 0.3)];
    const [one, two] = [overlapOf(a, b), overlapOf(b, a)];
    expect(two).toEqual({ ...one, one: 'b', two: 'a' });
  });

  it('of three, names the two', () => {
    const third = [0, 120, 240].map((deg, k) =>
      fragment('abc'[k], (x, y) => side(deg, 0)(x, y) && other(deg + 120, 0)(x, y)),
    );
    expect(overlapsAmong(third)).toEqual([]);
    const more = [...third, fragment('d', (x, y) => side(10, 3)(x, y) && other(60, 3)(x, y))];
    expect(overlapsAmong(more).map(({ one, two }) => `${one}${two}`)).toEqual(['ad']);
  });
});
