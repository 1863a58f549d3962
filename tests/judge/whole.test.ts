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

describe('a whole image', () => {
  it('is a round, an oval, a square', () => {
    expect(isWhole(outlineOf(() => 10))).toBe(true);
    expect(isWhole(outlineOf((a) => 1 / Math.hypot(Math.cos(a) / 8, Math.sin(a) / 12)))).toBe(true);
    expect(isWhole(outlineOf((a) => 10 / Math.max(Math.abs(Math.cos(a)), Math.abs(Math.sin(a)))))).toBe(true);
  });
  it('is not a disc cut off at a slanting chord', () => {
    const cut = (a: number) => Math.min(10, Math.cos(a - 0.7) > 0 ? 4 / Math.cos(a - 0.7) : 10);
    expect(isWhole(outlineOf(cut))).toBe(false);
  });
});
