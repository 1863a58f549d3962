import { describe, expect, it } from 'vitest';
import { seededRandom, type Vec2 } from '../../src/core/geometry/index.ts';
import { overCopyBesideBlow } from '../../src/core/judge/besideBlow.ts';
import { withStrike } from '../../src/core/judge/gates.ts';
import type { MeasuredPlaces } from '../../src/core/judge/measure.ts';
import type { Place } from '../../src/core/judge/patches.ts';
import { weighSeen } from '../../src/core/judge/rivals.ts';

/** Sixty places over a face of 30 mm, known to 10 µm and laid where `moved` takes them. */
function measured(moved: (x: number, y: number, random: () => number) => Vec2): MeasuredPlaces {
  const random = seededRandom(4);
  const seen = Array.from({ length: 60 }, (): Place => {
    const [x, y] = [random.between(-13, 13), random.between(-13, 13)];
    const [dx, dy] = moved(x, y, () => random.normal());
    return {
      ...{ x, y, dx: dx + 0.008 * random.normal(), dy: dy + 0.008 * random.normal(), turnDeg: 0 },
      ...{ correlation: 0.95, covariance: [1e-4, 0, 1e-4], whole: 1, kept: 1, relief: [0.1, 0.1] },
      ...{ inside: true, doubt: 0.03 },
    };
  });
  const faces = { middle: [0, 0], sizeMm: 30, windowMm2: 3.24, spacingMm: 0.005, share: 0.8, pointsAcross: 300 };
  return { seen, absent: [], found: 60, ...faces } as unknown as MeasuredPlaces;
}

/** Places at the first blow, at the second, which is the rigid motion given, and between, patch by patch. */
const blow = (sx: number, sy: number, turn: number) =>
  measured((x, y, normal) => {
    const share = Math.max(0, Math.min(1, 0.5 + normal()));
    return [share * (sx - turn * y), share * (sy + turn * x)];
  });

const copied = (mm: number) => measured((_x, _y, normal) => [mm * normal(), mm * normal()]);

function said(places: MeasuredPlaces) {
  const weighed = weighSeen(places);
  if (!weighed) throw new Error('nothing seen');
  return { weighed, plainly: weighed.overCopy, beside: overCopyBesideBlow(places, weighed) };
}

describe('one matrix beside a second blow', () => {
  it.each([
    ['a slip', blow(0.5, 0.2, 0)],
    ['one along the other axis', blow(0, 0.4, 0)],
    ['a turn about the middle', blow(0, 0, 0.06)],
    ['a shift with a turn', blow(0.4, -0.1, 0.05)],
  ])('explains places that are off along it: %s', (_, places) => {
    const { plainly, beside } = said(places);
    expect(plainly).toBeLessThan(-1.5);
    expect(beside).toBeGreaterThan(0);
  });

  it('does not explain a copyist, whose places are off to all sides', () => {
    for (const mm of [0.1, 0.2]) expect(said(copied(mm)).beside).toBeLessThan(-4);
  });

  it('stands in the way of speaking against where it explains the places, and is a copy’s own relief elsewhere', () => {
    const findingOf = (places: MeasuredPlaces): string => {
      const { weighed } = said(places);
      const gates = [
        { group: 'against', code: 'scoreAgainst', value: weighed.overCopy, bound: 'atMost', limit: -1.5, passed: true },
        { group: 'against', code: 'struckTwice', value: 0, bound: 'atMost', limit: 0, passed: true },
      ] as const;
      return withStrike({ finding: 'against', gates, places, weighed }, true).finding;
    };
    expect(findingOf(blow(0.5, 0.2, 0))).toBe('undecided');
    expect(findingOf(copied(0.2))).toBe('against');
  });
});
