import { describe, expect, it } from 'vitest';
import { imageOf } from '../../src/core/face/image.ts';
import { wallHull } from '../../src/core/face/wallSides.ts';
import { countCells, type HeightGrid, type Vec2, xOf, yOf } from '../../src/core/geometry/index.ts';
import { gridOf } from './grids.ts';

// Referee: cakes of wax put together here, 22 mm across, pitch 0.15 mm, with an image of 13 mm pressed 0.5 mm deep.
const half = 11;

/** A motif and a legend of strokes on a bare field, in a border line. */
function printed(x: number, y: number): number {
  const r = Math.hypot(x, y);
  if (Math.abs(r - 5.8) < 0.15) return 0.15;
  return r < 2.5 || (r > 3.8 && r < 5.2) ? 0.12 * Math.sign(Math.sin(9 * x + Math.sin(2.3 * y)) * Math.sin(7 * y)) : 0;
}

/** Wax as it was kneaded: slow waves. */
const kneaded = (x: number, y: number): number => 0.5 + 0.06 * Math.sin(1.3 * x + 0.4 * y) + 0.05 * Math.cos(1.1 * y);

const cake = (
  pressed: (x: number, y: number) => boolean,
  there: (x: number, y: number) => boolean = () => true,
): HeightGrid =>
  gridOf(half, 0.15, (x, y) => {
    if (Math.hypot(x, y) > 10.5 || !there(x, y)) return Number.NaN;
    return pressed(x, y) ? printed(x, y) : kneaded(x, y);
  });

/** Share of the image's own cells that are kept, and of those of the wax. */
function keptOf(relief: HeightGrid, pressed: (x: number, y: number) => boolean): { own: number; wax: number } {
  const { mask } = imageOf(relief, 21, true).image;
  const [own, wax] = [
    [0, 0],
    [0, 0],
  ];
  for (let i = 0; i < mask.length; i++) {
    if (!relief.mask[i]) continue;
    const counted = pressed(xOf(relief, i % relief.width), yOf(relief, Math.floor(i / relief.width))) ? own : wax;
    counted[0] += mask[i];
    counted[1]++;
  }
  return { own: own[0] / own[1], wax: wax[0] / wax[1] };
}

const inRound = (x: number, y: number): boolean => Math.hypot(x, y) < 6.5;
const inSquare = (x: number, y: number): boolean => Math.max(Math.abs(x), Math.abs(y)) < 6.2;

describe('the wall that a matrix left in a wider cake of wax', () => {
  it.each([
    ['round', inRound],
    ['square', inSquare],
  ] as const)('bounds a %s image', (_, pressed) => {
    const kept = keptOf(cake(pressed), pressed);
    expect(kept.own).toBeGreaterThan(0.97);
    expect(kept.wax).toBeLessThan(0.1);
  });

  it('bounds the image of a piece that broke across it', () => {
    const there = (x: number, y: number): boolean => 0.6 * x - 0.8 * y < 2.2;
    const kept = keptOf(cake(inRound, there), inRound);
    expect(kept.own).toBeGreaterThan(0.9);
    expect(kept.wax).toBeLessThan(0.1);
  });

  it('is none round the sunk motif of a matrix, with its legend beyond', () => {
    const matrix = gridOf(half, 0.15, (x, y) => {
      const r = Math.hypot(x, y);
      if (r > 10) return Number.NaN;
      const letters = r > 7 && r < 9 ? 0.15 * Math.min(0, Math.sign(Math.sin(6 * x) * Math.sin(5 * y))) : 0;
      return r < 5 ? -0.6 + 0.1 * Math.sin(4 * x) * Math.sin(5 * y) : letters;
    });
    expect(imageOf(matrix, 20, true).walled).toBe(false);
  });

  it('is none on a face that is stated to be engraved: a matrix lies in no cake', () => {
    const matrix = cake(inRound);
    expect(imageOf(matrix, 21, true).walled).toBe(true);
    const { image, walled } = imageOf(matrix, 21, false);
    expect(walled).toBe(false);
    expect(countCells(image.mask)).toBeGreaterThan(0.9 * countCells(matrix.mask));
  });

  it('is none where all of the face was printed, nor where wax stands round a small part of it', () => {
    expect(
      imageOf(
        cake(() => true),
        21,
        true,
      ).walled,
    ).toBe(false);
    expect(
      imageOf(
        cake((x, y) => Math.hypot(x, y) < 3),
        21,
        true,
      ).walled,
    ).toBe(false);
  });

  it('has sides where places follow one another along the hull, not across what is broken off, and no stroke inside counts', () => {
    const places = Array.from({ length: 80 }, (_, k): Vec2 => {
      const a = (k / 79) * 1.5 * Math.PI;
      return k === 40 ? [2, 1] : [30 * Math.cos(a), 30 * Math.sin(a)];
    });
    const hull = wallHull(places, 1, 6);
    // The chord is √2 radii, the arc three quarters of the circle.
    const wall = hull?.sides.reduce((sum, { length }) => sum + length, 0) ?? 0;
    expect(wall / (hull?.length ?? 1)).toBeCloseTo((1.5 * Math.PI) / (1.5 * Math.PI + Math.SQRT2), 2);
    for (const { place, outward } of hull?.sides ?? [])
      expect(place[0] * outward[0] + place[1] * outward[1]).toBeGreaterThan(28);
    expect(wallHull(places.slice(0, 2), 1, 6)).toBeNull();
  });
});
