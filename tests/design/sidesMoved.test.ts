import { describe, expect, it } from 'vitest';
import { alignCurve, type BandRelief } from '../../src/core/design/legend/alignCurve.ts';
import { type CurvePlace, idealOutline } from '../../src/core/design/legend/baseCurve.ts';
import { sidesMoved } from '../../src/core/design/legend/sidesMoved.ts';
import { emptyGrid, withHeights, xOf, yOf } from '../../src/core/geometry/index.ts';

const place = { cx: 3, cy: -2, turnDeg: 20, a: 10, b: 14 };

/** Where the four sides lie along the outline's own axes: least and greatest, of the first and of the second. */
function sidesOf(points: Float64Array): number[] {
  const t = (place.turnDeg * Math.PI) / 180;
  const [u, v] = [[], []] as number[][];
  for (let i = 0; i < points.length; i += 2) {
    u.push(Math.cos(t) * points[i] - Math.sin(t) * points[i + 1]);
    v.push(Math.sin(t) * points[i] + Math.cos(t) * points[i + 1]);
  }
  return [Math.min(...u), Math.max(...u), Math.min(...v), Math.max(...v)];
}

describe('an outline with a side moved', () => {
  it('keeps its other three sides, whichever was moved', () => {
    const before = sidesOf(idealOutline('square', place, 400));
    const moved = sidesMoved(place);
    expect(moved.every(({ a, b }) => a !== place.a || b !== place.b)).toBe(true);
    const which = moved.map((each) => {
      const sides = sidesOf(idealOutline('square', each, 400));
      const changed = sides.map((side, k) => Math.abs(side - before[k]) > 0.12);
      expect(changed.filter(Boolean).length).toBeLessThanOrEqual(1);
      return changed.indexOf(true);
    });
    for (const side of [0, 1, 2, 3]) expect(which.filter((k) => k === side).length).toBeGreaterThan(30);
  });
});

describe('the search for a curve', () => {
  /** Three lines, 2 mm from one another, along a square of half side 10 about the middle. */
  const grid = emptyGrid(-16, 16, -16, 16, 0.2);
  const lined = withHeights(
    grid,
    grid.z.map((_, i) => {
      const depth = 10 - Math.max(Math.abs(xOf(grid, i % grid.width)), Math.abs(yOf(grid, Math.floor(i / grid.width))));
      return [0, 2, 4].some((line) => Math.abs(depth - line) < 0.3) ? 1 : 0;
    }),
    grid.mask.map(() => 1),
  );
  const relief: BandRelief = {
    fine: lined,
    lines: lined,
    middle: lined,
    coarse: lined,
    raised: lined,
    strokes: lined,
  };

  it('frees a side that lies on a neighbouring line', () => {
    const caught = { cx: 1, cy: 0, turnDeg: 0, a: 11, b: 10 };
    const [best] = alignCurve(relief, (shape) => (shape === 'square' ? [caught] : []));
    const { cx, cy, a, b } = best.place;
    // Whichever of the lines it lies on, all four sides lie on the same.
    expect(Math.abs(cx)).toBeLessThan(0.15);
    expect(Math.abs(cy)).toBeLessThan(0.15);
    expect(Math.abs(a - b)).toBeLessThan(0.15);
  });

  it("climbs from the image's own edge where a piece of lip draws the detail away", () => {
    const lip = withHeights(
      grid,
      grid.z.map((_, i) => (xOf(grid, i % grid.width) > 13 ? 1 : 0)),
    );
    const far = { cx: 9, cy: 3, turnDeg: 0, a: 7, b: 12 };
    const own = { cx: 0.6, cy: -0.4, turnDeg: 4, a: 10.8, b: 10.6 };
    const search = (near: readonly CurvePlace[]) =>
      alignCurve(
        { ...relief, coarse: lip },
        (shape) => (shape === 'square' ? [far] : []),
        (shape) => (shape === 'square' ? near : []),
      )[0];
    const { place, explained } = search([own]);
    expect(Math.hypot(place.cx, place.cy)).toBeLessThan(0.15);
    expect(explained).toBeGreaterThan(1.5 * search([]).explained);
  });
});
