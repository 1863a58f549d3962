import { describe, expect, it } from 'vitest';
import { lineLevel } from '../../../../src/core/condition/marks/lines/lineLevel.ts';
import type { LineProfiles } from '../../../../src/core/condition/marks/lines/lineProfiles.ts';

const stepMm = 0.25;

/** Profiles of a line of `count` steps whose design has the heights `ground` and which stands `crest` over it, mm. */
function profiles(
  count: number,
  ground: (k: number) => number,
  crest: (ground: number, k: number) => number,
  more: Partial<LineProfiles> = {},
): LineProfiles {
  const heights = Float64Array.from({ length: count }, (_, k) => ground(k));
  return {
    aside: new Float64Array(0),
    rows: [],
    along: Float64Array.from({ length: count }, (_, k) => 3 + k * stepMm),
    ground: heights,
    crest: heights.map(crest),
    tallMm: 0.4,
    overDesign: true,
    ...more,
  };
}

/** From 0 to 0.6 mm and down again, evenly. */
const hill = (k: number): number => 0.6 * Math.abs(((k / 20) % 2) - 1);

describe('lineLevel', () => {
  it('finds the level that a tool kept: crests end where the design reaches it', () => {
    const level = lineLevel(
      profiles(41, hill, (h) => Math.max(0, 0.4 - h)),
      1,
    );
    expect(Math.abs((level?.levelMm ?? 0) - 0.4)).toBeLessThan(0.011);
    expect(level?.offLevelMm).toBeLessThan(0.006);
    // The best single height of a ramp that is 0 for a third and then rises to 0.4: what it leaves is known.
    const c = Array.from({ length: 41 }, (_, k) => Math.max(0, 0.4 - hill(k)));
    // … with no step counting for more than three times 0.06 mm.
    const left = (height: number): number =>
      Math.sqrt(c.reduce((sum, value) => sum + Math.min(0.18, Math.abs(value - height)) ** 2, 0) / c.length);
    const least = Math.min(...Array.from({ length: 600 }, (_, k) => left(k / 1000)));
    expect(Math.abs((level?.offHeightMm ?? 0) - least)).toBeLessThan(0.002);
    expect(level?.lowMm).toBeCloseTo(0.06, 2);
    expect(level?.highMm).toBeCloseTo(0.54, 2);
    // Half the difference of the mean squares in units of the least scatter (0.15 of 0.4 mm), times 41 steps of 0.25 mm.
    expect(level?.forLevel).toBeCloseTo(
      (((level?.offHeightMm ?? 0) ** 2 - (level?.offLevelMm ?? 0) ** 2) / (2 * 0.06 ** 2)) * (41 / 4),
      6,
    );
    expect(level?.forLevel).toBeGreaterThan(15);
    // Steps whose design lies more than 0.06 mm above the level, in pieces of a millimetre: all without the line.
    const beyond =
      Array.from({ length: 41 }, (_, k) => hill(k)).filter((h) => h > (level?.levelMm ?? 0) + 0.06).length / 4;
    expect(level?.beyond).toBeCloseTo(beyond, 9);
    expect(level?.beyondWithout).toBeCloseTo(beyond, 9);
    expect(beyond).toBeGreaterThan(2);
  });

  it('prefers one height for what follows the surface', () => {
    const level = lineLevel(
      profiles(41, hill, () => 0.4),
      1,
    );
    expect(level?.offHeightMm).toBeCloseTo(0, 6);
    expect(level?.forLevel).toBeLessThan(-5);
    expect(level?.beyondWithout).toBe(0);
  });

  it('counts what lies beyond as without the line below a quarter of its height', () => {
    const beyond = (share: number) =>
      lineLevel(
        profiles(41, hill, (h) => (h > 0.47 ? share * 0.4 : Math.max(0, 0.4 - h))),
        1,
      );
    expect(beyond(0.24)?.beyondWithout).toBe(beyond(0.24)?.beyond);
    expect(beyond(0.26)?.beyondWithout).toBe(0);
    expect(beyond(0.26)?.beyond).toBeGreaterThan(1);
  });

  it('limits what one step off can do to three times the scatter', () => {
    const off = lineLevel(
      profiles(
        40,
        () => 0,
        (_, k) => (k === 7 ? 40 : 0.3),
      ),
      1,
    );
    const less = lineLevel(
      profiles(
        40,
        () => 0,
        (_, k) => (k === 7 ? 0.3 + 0.19 : 0.3),
      ),
      1,
    );
    expect(off?.offHeightMm).toBeCloseTo(less?.offHeightMm ?? 0, 2);
    expect(off?.offHeightMm).toBeCloseTo(0.18 / Math.sqrt(40), 2);
    const within = lineLevel(
      profiles(
        40,
        () => 0,
        (_, k) => (k === 7 ? 0.3 + 0.12 : 0.3),
      ),
      1,
    );
    expect(within?.offHeightMm).toBeCloseTo(0.12 / Math.sqrt(40), 2);
  });

  it('says nothing between the two on a level design', () => {
    expect(
      Math.abs(
        lineLevel(
          profiles(
            40,
            () => 0.2,
            () => 0.3,
          ),
          1,
        )?.forLevel ?? 9,
      ),
    ).toBeLessThan(0.2);
  });

  it('is turned over for a groove', () => {
    const ridge = profiles(41, hill, (h) => Math.max(0, 0.4 - h));
    const groove = { ...ridge, ground: ridge.ground.map((h) => -h) };
    const [up, down] = [lineLevel(ridge, 1), lineLevel(groove, -1)];
    expect(down?.levelMm).toBeCloseTo(-(up?.levelMm ?? 0), 12);
    expect(down?.lowMm).toBeCloseTo(-(up?.highMm ?? 0), 12);
    expect(down?.highMm).toBeCloseTo(-(up?.lowMm ?? 0), 12);
    expect(down?.forLevel).toBe(up?.forLevel);
    expect(down?.beyond).toBe(up?.beyond);
  });

  it('leaves out steps without data and wants six of them, and a line', () => {
    const known = (count: number) =>
      lineLevel(
        profiles(
          20,
          () => 0.1,
          (_, k) => (k < count ? 0.3 : Number.NaN),
        ),
        1,
      );
    expect(known(6)).not.toBeNull();
    expect(known(5)).toBeNull();
    expect(
      lineLevel(
        profiles(
          20,
          (k) => (k < 6 ? 0.1 : Number.NaN),
          () => 0.3,
        ),
        1,
      ),
    ).not.toBeNull();
    expect(
      lineLevel(
        profiles(
          20,
          () => 0.1,
          () => 0,
          { tallMm: 0 },
        ),
        1,
      ),
    ).toBeNull();
    expect(
      lineLevel(
        profiles(20, hill, () => 0.3, { overDesign: false }),
        1,
      )?.ground,
    ).toBe('sides');
    expect(
      lineLevel(
        profiles(20, hill, () => 0.3),
        1,
      )?.ground,
    ).toBe('design');
  });
});
