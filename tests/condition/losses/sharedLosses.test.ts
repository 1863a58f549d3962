import { describe, expect, it } from 'vitest';
import { sharedLosses } from '../../../src/core/condition/losses/sharedLosses.ts';
import { lossField } from '../../../src/core/condition/relief/loss.ts';
import { designHeight, pair, type Surface } from '../pressedSeal.ts';

/** A broken place of radius 1.6 mm with a rough floor about 0.3 mm below the ground; `grain` makes another floor. */
const broken =
  (surface: Surface, [cx, cy]: readonly [number, number], grain = 0): Surface =>
  (x, y) => {
    if (Math.hypot(x - cx, y - cy) > 1.6) return surface(x, y);
    return -0.3 - 0.08 * Math.sin(3 * x + grain) * Math.cos(2.5 * y - 2 * grain);
  };

const places = [
  [16, 3],
  [-7, -8],
] as const;
const lost = (at: readonly (readonly [number, number])[], grain = 0): Surface =>
  at.reduce<Surface>((surface, place) => broken(surface, place, grain), designHeight);

const seen = (subject: Surface, reference: Surface) => {
  const relief = pair(subject, reference);
  return sharedLosses(relief, lossField(relief));
};

describe('losses that two positives share', () => {
  it('are found where both lack the same pieces, though no difference shows there, and one breaks the edge', () => {
    const { losses, byChance } = seen(lost(places), lost(places));
    expect(losses).toHaveLength(2);
    expect(losses.filter(({ atEdge }) => atEdge)).toHaveLength(1);
    expect(byChance).toBe(0);
    for (const { overlap, floor } of losses) {
      expect(overlap).toBeGreaterThan(0.8);
      expect(floor).toBeGreaterThan(0.9);
    }
  });

  it('have floors that are surely one where one surface broke, even of a single loss, and not where a smooth hollow or another break lies there', () => {
    const torn =
      (phase: number): Surface =>
      (x, y) =>
        Math.hypot(x - 15, y - 3) > 2.5
          ? designHeight(x, y)
          : -0.6 - 0.2 * Math.sin(4 * x + phase) * Math.cos(3.5 * y - 2 * phase);
    const one = seen(torn(0), torn(0)).floors;
    expect(one?.sigma).toBeGreaterThan(5);
    expect(one?.roughMm).toBeGreaterThan(0.05);
    const hollow: Surface = (x, y) => designHeight(x, y) - 0.5 * Math.exp(-(((x - 16) / 2) ** 2 + ((y - 3) / 2) ** 2));
    expect(seen(hollow, hollow).floors?.roughMm ?? 0).toBeLessThan(0.05);
    expect(seen(torn(1.6), torn(0)).floors?.sigma ?? 0).toBeLessThan(5);
  });

  it('are none where each has its own, at other places or at the same with another floor', () => {
    const elsewhere = [
      [-16, 2],
      [8, -8],
    ] as const;
    expect(seen(lost(elsewhere), lost(places)).losses).toEqual([]);
    expect(seen(lost(places, 1.6), lost(places)).losses).toEqual([]);
  });

  it('are none where the ground of both sags without an edge, as it does between tall forms', () => {
    const sags: Surface = (x, y) => designHeight(x, y) - 0.2 * Math.exp(-((x + 7) ** 2 + (y + 8) ** 2) / 4);
    expect(seen(sags, sags).losses).toEqual([]);
  });

  it('are none where one of the two is whole', () => {
    expect(seen(designHeight, lost(places)).losses).toEqual([]);
    expect(seen(lost(places), designHeight).losses).toEqual([]);
  });
});
