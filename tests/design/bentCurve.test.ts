import { describe, expect, test } from 'vitest';
import { type BaseCurve, curveOf, idealOutline } from '../../src/core/design/legend/baseCurve.ts';
import { bentCurve } from '../../src/core/design/legend/bentCurve.ts';
import { emptyGrid, type HeightGrid, xOf, yOf } from '../../src/core/geometry/index.ts';

const circle = curveOf(idealOutline('round', { cx: 0, cy: 0, turnDeg: 0, a: 15, b: 15 }, 720));
/** Two border lines 2 and 6 mm within a ring of 15 mm that a hand cut with three waves of 0.4 mm and one of 0.3. */
const wavering = (angle: number): number => 0.4 * Math.cos(3 * angle + 0.7) + 0.3 * Math.sin(angle);
const line = (mm: number): number => Math.exp(-((mm / 0.35) ** 2));

function ring(missing: (angle: number) => boolean = () => false): HeightGrid {
  const grid = emptyGrid(-17, 17, -17, 17, 0.15);
  for (let i = 0; i < grid.z.length; i++) {
    const [x, y] = [xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width))];
    const angle = Math.atan2(y, x);
    const depth = 15 + wavering(angle) - Math.hypot(x, y);
    grid.z[i] = line(depth - 2) + line(depth - 6);
    grid.mask[i] = missing(angle) ? 0 : 1;
  }
  return grid;
}

/** Root mean square of how far the curve's places lie from the ring's own, less their mean: depths tell that. */
function besideMm({ x, y }: BaseCurve, asked: (angle: number) => boolean = () => true): number {
  const off = Array.from(x, (_, k) => [Math.atan2(y[k], x[k]), Math.hypot(x[k], y[k])] as const)
    .filter(([angle]) => asked(angle))
    .map(([angle, radius]) => radius - 15 - wavering(angle));
  const mean = off.reduce((a, b) => a + b, 0) / off.length;
  return Math.sqrt(off.reduce((sum, value) => sum + (value - mean) ** 2, 0) / off.length);
}

describe('a curve bent to what runs parallel to it', () => {
  test('follows a ring that is no circle within a tenth of what it was beside it', () => {
    expect(besideMm(circle)).toBeGreaterThan(0.3);
    expect(besideMm(bentCurve(ring(), circle, 0, 8))).toBeLessThan(0.03);
  });

  test('follows what is left of a broken ring, and does not run away where nothing is', () => {
    const missing = (angle: number): boolean => angle > 0.5 && angle < 2.2;
    const bent = bentCurve(ring(missing), circle, 0, 8);
    expect(besideMm(bent, (angle) => !missing(angle))).toBeLessThan(0.06);
    expect(Math.max(...Array.from(bent.x, (x, k) => Math.abs(Math.hypot(x, bent.y[k]) - 15)))).toBeLessThan(1.5);
  });

  test('stays where nothing runs parallel to it', () => {
    const flat = ring();
    flat.z.fill(0);
    const bent = bentCurve(flat, circle, 0, 8);
    bent.x.forEach((x, k) => {
      expect(x).toBeCloseTo(circle.x[k], 4);
    });
  });
});
