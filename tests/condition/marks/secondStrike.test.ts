import { describe, expect, it } from 'vitest';
import { secondStrike } from '../../../src/core/condition/marks/secondStrike.ts';
import { lossField } from '../../../src/core/condition/relief/loss.ts';
import { designHeight, pair, type Surface } from '../pressedSeal.ts';

/** The higher of the relief and of a weaker ghost of it, moved by (dx, dy) and turned counter-clockwise about the middle. */
const struckTwice =
  (dx: number, dy: number, turnDeg = 0, weaker = 0.7): Surface =>
  (x, y) => {
    const c = Math.cos((turnDeg * Math.PI) / 180);
    const s = Math.sin((turnDeg * Math.PI) / 180);
    const [u, v] = [x - dx, y - dy];
    return Math.max(designHeight(x, y), weaker * designHeight(c * u + s * v, c * v - s * u));
  };

function seenOn(surface: Surface) {
  const relief = pair(surface);
  return secondStrike(relief, lossField(relief));
}

describe('secondStrike', () => {
  it.each([
    ['itself', designHeight],
    ['a rubbed face', (x, y) => 0.6 * designHeight(x, y)],
    ['one with a lump of wax', (x, y) => designHeight(x, y) + (Math.hypot(x - 6, y - 3) < 1.5 ? 0.4 : 0)],
    ['a soft one', (x, y) => [-1, 0, 1].reduce((sum, t) => sum + designHeight(x + 0.2 * t, y) / 3, 0)],
  ] as [string, Surface][])('sees none on %s', (_, surface) => {
    expect(seenOn(surface)).toBeNull();
  });

  it.each([
    [0.6, 0, 90],
    [0, -0.5, 180],
    [-0.5, 0.5, 315],
  ])('finds a slip by (%s, %s) mm, toward %s°', (dx, dy, towardDeg) => {
    const found = seenOn(struckTwice(dx, dy));
    expect(found?.kind).toBe('slip');
    expect(Math.abs((found?.shiftMm ?? 0) - Math.hypot(dx, dy))).toBeLessThan(0.15);
    expect(Math.abs((found?.towardDeg ?? 0) - towardDeg)).toBeLessThan(20);
  });

  it('finds a double strike, turned by 3° and moved', () => {
    const found = seenOn(struckTwice(0.4, 0.3, 3));
    expect(found?.kind).toBe('doubleStrike');
    expect(Math.abs((found?.turnDeg ?? 0) - 3)).toBeLessThan(1);
  });
});
