import { describe, expect, it } from 'vitest';
import type { Outline } from '../../src/core/face/index.ts';
import { isWhole } from '../../src/core/judge/whole.ts';

/** An outline of 180 directions from its distance in each, the middle put into the middle of its box. */
const outlineOf = (radius: (angle: number) => number): Pick<Outline, 'polygon'> => {
  const polygon = Float64Array.from({ length: 360 }, (_, i) => {
    const angle = (2 * Math.PI * (i >> 1)) / 180;
    return radius(angle) * (i % 2 === 0 ? Math.cos(angle) : Math.sin(angle));
  });
  return { polygon };
};

/** Half of an oval, cut through its middle along `at`, as a rim from even directions about the middle of its box. */
function halfOf(at: number, wide: number): Pick<Outline, 'polygon'> {
  const inside = (x: number, y: number): boolean =>
    (x / wide) ** 2 + y ** 2 <= 1 && x * Math.sin(at) <= y * Math.cos(at);
  const points = Array.from({ length: 400 }, (_, k) => (2 * Math.PI * k) / 400)
    .flatMap((a) => [[wide * Math.cos(a), Math.sin(a)]])
    .concat(
      [-1, 1].map((side) => {
        const r = 1 / Math.hypot(Math.cos(at) / wide, Math.sin(at));
        return [side * r * Math.cos(at), side * r * Math.sin(at)];
      }),
    )
    .filter(([x, y]) => inside(0.999 * x, 0.999 * y));
  const middle = [0, 1].map((k) => (Math.min(...points.map((p) => p[k])) + Math.max(...points.map((p) => p[k]))) / 2);
  return outlineOf((a) => {
    let [least, most] = [0, 3];
    for (let step = 0; step < 40; step++) {
      const r = (least + most) / 2;
      if (inside(middle[0] + r * Math.cos(a), middle[1] + r * Math.sin(a))) least = r;
      else most = r;
    }
    return least;
  });
}

describe('a whole image', () => {
  it('is a round, an oval, a square', () => {
    expect(isWhole(outlineOf(() => 10))).toBe(true);
    expect(isWhole(outlineOf((a) => 1 / Math.hypot(Math.cos(a) / 8, Math.sin(a) / 12)))).toBe(true);
    expect(isWhole(outlineOf((a) => 10 / Math.max(Math.abs(Math.cos(a)), Math.abs(Math.sin(a)))))).toBe(true);
  });
  it('is one that wax left uneven all round, by a tenth of its radius here and there', () => {
    expect(isWhole(outlineOf((a) => 10 + Math.cos(3 * a) * 0.3 + Math.cos(5 * a + 1) * 0.3))).toBe(true);
  });
  it('is judged by what its symmetry would add to its area: a bite out of one side counts by its size', () => {
    // A bite of depth d over an angle w takes (1 − (1 − d)²) w of 2π; its counterpart across is there.
    const bitten = (w: number) => isWhole(outlineOf((a) => (a < w ? 5 : 10)));
    const share = (w: number) => (0.75 * w) / (2 * Math.PI);
    expect(share(0.45)).toBeLessThan(0.06);
    expect(share(0.6)).toBeGreaterThan(0.06);
    expect([bitten(0.45), bitten(0.6)]).toEqual([true, false]);
  });
  it('is not half of a disc or an oval, turned long side up or aslant, its middle put into the middle of its box', () => {
    for (const at of [0.4, 0.8, 1.2, 1.57]) for (const wide of [1, 0.7]) expect(isWhole(halfOf(at, wide))).toBe(false);
  });
  it('is not a disc cut off at a slanting chord', () => {
    const cut = (a: number) => Math.min(10, Math.cos(a - 0.7) > 0 ? 4 / Math.cos(a - 0.7) : 10);
    expect(isWhole(outlineOf(cut))).toBe(false);
  });
});
