import { describe, expect, it } from 'vitest';
import { carriedShare } from '../../src/core/fit/index.ts';
import { analyticFace, disc, waves } from '../judge/analyticFace.ts';

const sizeMm = 20;
const relief = waves(3);
type Height = (x: number, y: number) => number;
const shareOf = (height: Height): number => carriedShare(analyticFace(height, disc()).image, sizeMm);

describe('the share of a face that carries relief', () => {
  const all = shareOf(relief);

  it('is about a third where relief like normal values lies all over it', () => {
    expect(all).toBeGreaterThan(0.3);
    expect(all).toBeLessThan(0.42);
  });

  it('falls with the bare part of the face, though its texture is still there', () => {
    const within = (radiusMm: number): Height => {
      const texture = waves(4);
      return (x, y) => (Math.hypot(x, y) < radiusMm ? relief(x, y) : 0) + 0.01 * texture(x, y);
    };
    const shares = [10, 7, 5, 3].map((radiusMm) => shareOf(within(radiusMm)));
    expect([...shares].sort((a, b) => b - a)).toEqual(shares);
    expect(shares[2] / all).toBeGreaterThan(0.2);
    expect(shares[2] / all).toBeLessThan(0.6);
  });

  it('falls with pits that stand out of everything round them, and hardly with one deep chip', () => {
    const pits = Array.from({ length: 45 }, (_, k) => [Math.sqrt(k / 45) * 9.5, 2.4 * k] as const).map(
      ([far, at]) => [far * Math.cos(at), far * Math.sin(at)] as const,
    );
    const pitted =
      (some: typeof pits, deep: number): Height =>
      (x, y) =>
        relief(x, y) -
        deep * some.reduce((sum, [u, v]) => sum + Math.max(0, 1 - ((x - u) ** 2 + (y - v) ** 2) / 0.16), 0);
    expect(shareOf(pitted(pits, 1.5))).toBeLessThan(0.6 * all);
    expect(shareOf(pitted(pits.slice(0, 1), 5))).toBeGreaterThan(0.9 * all);
  });

  it('does not change with the heights’ scale or sign', () => {
    for (const by of [-1, 10]) expect(shareOf((x, y) => by * relief(x, y))).toBeCloseTo(all, 5);
  });
});
