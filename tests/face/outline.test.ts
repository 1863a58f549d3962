import { describe, expect, it } from 'vitest';
import { fillOf } from '../../src/core/face/fill.ts';
import { insidePolygon } from '../../src/core/face/index.ts';
import { findOutline } from '../../src/core/face/outline.ts';
import { gridOf } from './grids.ts';

type Inside = (x: number, y: number) => boolean;

const disc: Inside = (x, y) => Math.hypot(x, y) < 15;
const oval: Inside = (x, y) => Math.hypot(x / 11, y / 15) < 1;
/** Two arcs of one radius that meet in the points (0, ±15) and bulge to ±10. */
const vesica: Inside = (x, y) => {
  const arc = (10 ** 2 + 15 ** 2) / 20;
  return Math.hypot(Math.abs(x) + arc - 10, y) < arc;
};
const square: Inside = (x, y) => Math.max(Math.abs(x), Math.abs(y)) < 12;
/** Straight top at +13, sides at ±11, two arcs to the point at −15. */
const shield: Inside = (x, y) => {
  if (y >= 0) return y < 13 && Math.abs(x) < 11;
  const arc = (11 ** 2 + 15 ** 2) / 22;
  return Math.hypot(Math.abs(x) + arc - 11, y) < arc;
};

const turnedBy =
  (inside: Inside, deg: number): Inside =>
  (x, y) => {
    const a = (deg * Math.PI) / 180;
    return inside(Math.cos(a) * x + Math.sin(a) * y, -Math.sin(a) * x + Math.cos(a) * y);
  };

function outlineOf(inside: Inside) {
  const grid = gridOf(18, 0.25, () => 0, inside);
  return findOutline(grid, grid.mask);
}

describe('findOutline', () => {
  for (const [shape, inside, width, height] of [
    ['round', disc, 30, 30],
    ['oval', oval, 22, 30],
    ['pointedOval', vesica, 20, 30],
    ['square', square, 24, 24],
    ['shield', shield, 22, 28],
  ] as const) {
    for (const deg of [0, 24, -33])
      it(`names a ${shape} turned by ${deg}°, its size and its turn`, () => {
        const found = outlineOf(turnedBy(inside, deg));
        expect(found.shape).toBe(shape);
        expect(Math.abs(found.widthMm - width)).toBeLessThan(0.9);
        expect(Math.abs(found.heightMm - height)).toBeLessThan(0.9);
        if (shape === 'round') expect(found.turnDeg).toBe(0);
        else expect(Math.abs(found.turnDeg - deg)).toBeLessThanOrEqual(3);
      });

    it(`puts the middle of a ${shape} where it is`, () => {
      const found = outlineOf((x, y) => inside(x - 1.5, y + 0.75));
      expect(Math.abs(found.centre[0] - 1.5)).toBeLessThan(0.3);
      expect(Math.abs(found.centre[1] + 0.75 - (shape === 'shield' ? -1 : 0))).toBeLessThan(0.3);
    });
  }

  it('still knows a shape whose edge is chipped', () => {
    const chipped: Inside = (x, y) => vesica(x, y) && Math.hypot(x - 8, y - 3) > 3 && Math.hypot(x + 5, y + 11) > 2.5;
    expect(outlineOf(chipped).shape).toBe('pointedOval');
  });

  it('runs counter-clockwise about its middle', () => {
    const { polygon } = outlineOf(shield);
    let area = 0;
    for (let i = 0; i < polygon.length; i += 2) {
      const j = (i + 2) % polygon.length;
      area += (polygon[i] * polygon[j + 1] - polygon[j] * polygon[i + 1]) / 2;
    }
    expect(area).toBeGreaterThan(400);
  });
});

describe('insidePolygon', () => {
  it('agrees with the shape that the polygon was drawn from', () => {
    const grid = gridOf(18, 0.2, () => 0);
    const polygon = Float64Array.from({ length: 720 }, (_, k) => {
      const angle = (Math.PI * (k >> 1)) / 180;
      return 12 * (k % 2 === 0 ? Math.cos(angle) : Math.sin(angle));
    });
    const inside = insidePolygon(grid, polygon);
    const area = inside.reduce((sum, value) => sum + value, 0) * 0.2 ** 2;
    expect(area / (Math.PI * 144)).toBeCloseTo(1, 2);
    expect(inside[90 * grid.width + 90]).toBe(1);
    expect(inside[90 * grid.width + 5]).toBe(0);
  });
});

describe('fillOf', () => {
  const rim = Float64Array.of(-10, -10, 10, -10, 10, 10, -10, 10);

  it('measures what is scanned and counts holes, not bites out of the edge', () => {
    const holes: Inside = (x, y) => Math.hypot(x - 4, y) > 1.5 && Math.hypot(x + 4, y - 3) > 1 && y < 8;
    const { filled, holes: count } = fillOf(
      gridOf(12, 0.1, () => 0, holes),
      rim,
    );
    expect(count).toBe(2);
    expect(filled).toBeCloseTo(1 - (Math.PI * (1.5 ** 2 + 1) + 20 * 2) / 400, 2);
  });

  it('is full and whole for a full grid, and does not count specks of ten cells', () => {
    expect(
      fillOf(
        gridOf(12, 0.1, () => 0),
        rim,
      ),
    ).toEqual({ filled: 1, holes: 0 });
    const speck: Inside = (x, y) => Math.max(Math.abs(x), Math.abs(y)) > 0.14;
    expect(
      fillOf(
        gridOf(12, 0.1, () => 0, speck),
        rim,
      ).holes,
    ).toBe(0);
  });
});
