import { describe, expect, it } from 'vitest';
import { emptyGrid, xOf, yOf } from '../../src/core/geometry/index.ts';
import type { PlacedFragment } from '../../src/core/read/index.ts';
import { besideDefaults, besideEdges } from '../../src/core/report/plate/besideEdges.ts';

/** What lies where `holds` says, on one grid of 60 mm. */
function fragment(name: string, holds: (x: number, y: number) => boolean): PlacedFragment {
  const grid = emptyGrid(-30, 30, -30, 30, 0.5);
  const sum = [0, 0, 0];
  for (let i = 0; i < grid.mask.length; i++) {
    const [x, y] = [xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width))];
    if (!holds(x, y)) continue;
    grid.mask[i] = 1;
    [x, y, 1].forEach((value, k) => {
      sum[k] += value;
    });
  }
  return { name, surface: grid, detail: grid, middle: [sum[0] / sum[2], sum[1] / sum[2]] };
}

const outline = Float64Array.from({ length: 120 }, (_, i) => {
  const t = (Math.PI * (i >> 1)) / 30;
  return 20 * (i % 2 ? Math.sin(t) : Math.cos(t));
});
const whole = fragment('whole', (x, y) => Math.hypot(x, y) < 26);
const half = fragment('half', (x, y) => Math.hypot(x, y) < 20 && x > 2);
const other = fragment('other', (x, y) => Math.hypot(x, y) < 20 && x < 1);

describe("fragments' letters", () => {
  it.each([
    ['two pieces', [half, other]],
    ['a piece and the whole impression that lies over it', [whole, half]],
    ['the same, the other way round', [half, whole]],
    ['several that lie over one another', [half, half, whole, half, whole]],
  ])('stand beside all wax and apart from one another: %s', (_, placed) => {
    const letters = besideEdges(placed, outline);
    expect(letters).toHaveLength(placed.length);
    for (const [k, { x, y }] of letters.entries()) {
      for (const { surface } of placed)
        for (let i = 0; i < surface.mask.length; i++)
          if (surface.mask[i])
            expect(
              Math.hypot(xOf(surface, i % surface.width) - x, yOf(surface, Math.floor(i / surface.width)) - y) > 2.5,
            ).toBe(true);
      for (const before of letters.slice(0, k))
        expect(Math.hypot(before.x - x, before.y - y)).toBeGreaterThanOrEqual(besideDefaults.apartMm);
    }
  });

  it('stand on the side of their fragment', () => {
    const [a, b] = besideEdges([half, other], outline);
    expect(a.x).toBeGreaterThan(20);
    expect(b.x).toBeLessThan(-20);
  });
});
