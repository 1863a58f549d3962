import { describe, expect, it } from 'vitest';
import { emptyGrid, withHeights, xOf, yOf } from '../../src/core/geometry/index.ts';
import { joined, meetingEdge, overlapOf, type PlacedFragment } from '../../src/core/read/index.ts';

/** A disc of 20 mm, the part of it that `has` takes, at a height. */
function fragment(name: string, has: (x: number, y: number) => boolean, height = 0): PlacedFragment {
  const grid = emptyGrid(-26, 26, -26, 26, 0.1);
  const mask = grid.mask.map((_, i) => {
    const [x, y] = [xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width))];
    return Math.hypot(x, y) <= 20 && has(x, y) ? 1 : 0;
  });
  const surface = withHeights(
    grid,
    Float32Array.from(mask, (m) => m * height),
    mask,
  );
  return { name, surface, detail: surface, middle: [0, 0] };
}
/** Beyond a straight break through the middle, turned, `mm` away from it. */
const side = (deg: number, mm: number) => (x: number, y: number) =>
  x * Math.cos((deg * Math.PI) / 180) + y * Math.sin((deg * Math.PI) / 180) > mm;
const other = (deg: number, mm: number) => (x: number, y: number) => side(deg + 180, mm)(x, y);

describe('edges that meet', () => {
  it.each([0, 20, 45, 70, 90])('a straight break at %i° is measured: length, gap, step', (deg) => {
    const edge = meetingEdge(fragment('a', side(deg, 0.4)), fragment('b', other(deg, 0.4), 0.25));
    // A chord through the middle of a disc of 20 mm radius is 40 mm long; its ends turn away over the smoothing.
    expect(edge?.lengthMm).toBeGreaterThan(38);
    expect(edge?.lengthMm).toBeLessThan(41.5);
    expect(edge?.gapMm).toBeCloseTo(0.8, 0);
    expect(Math.abs((edge?.gapMm ?? 9) - 0.8)).toBeLessThan(0.11);
    expect(edge?.stepMm).toBeCloseTo(0.25, 3);
    expect(edge?.overlapMm2).toBe(0);
  });

  it('two that lie over one another have a negative gap, and what both carry', () => {
    const [a, b] = [fragment('a', side(30, -0.5)), fragment('b', other(30, -0.5))];
    const edge = meetingEdge(a, b);
    expect(edge?.gapMm).toBeCloseTo(-1, 0);
    expect(edge?.overlapMm2).toBeGreaterThan(38);
    expect(edge?.overlapMm2).toBeLessThan(42);
    expect(overlapOf(a, b).overlapDepthMm).toBeCloseTo(0.5, 0);
  });

  it('edges that lie side by side, or too far away, do not meet', () => {
    expect(meetingEdge(fragment('a', side(0, 4)), fragment('b', other(0, 4)))).toBeNull();
    const whole = fragment('a', () => true);
    expect(meetingEdge(whole, whole)).toBeNull();
  });

  it('exchanged, the gap stays and the step changes sign', () => {
    const [a, b] = [fragment('a', side(10, 0.3)), fragment('b', other(10, 0.3), 0.1)];
    const [one, two] = [meetingEdge(a, b), meetingEdge(b, a)];
    expect(two?.gapMm).toBeCloseTo(one?.gapMm ?? Number.NaN, 1);
    expect(two?.stepMm).toBeCloseTo(-(one?.stepMm ?? Number.NaN), 3);
  });

  it('joined, every place that any carries is there, from the one whose edge is further away', () => {
    const [a, b] = [fragment('a', side(0, -1), 1), fragment('b', other(0, -1), 2)];
    const grid = joined([a, b], 'surface');
    const at = (x: number): number => grid.z[Math.round(26 / 0.1) * grid.width + Math.round((x + 26) / 0.1)];
    expect([at(5), at(0.5), at(-0.5), at(-5)]).toEqual([1, 1, 2, 2]);
    expect(grid.mask.reduce((sum, has) => sum + has, 0) * 0.01).toBeCloseTo(Math.PI * 400, -1);
  });
});
