import { describe, expect, test } from 'vitest';
import { bandRelief } from '../../src/core/design/legend/alignCurve.ts';
import { type BaseCurve, curveOf, resample } from '../../src/core/design/legend/baseCurve.ts';
import { outlineCurve } from '../../src/core/design/legend/outlineCurve.ts';
import { emptyGrid, type HeightGrid, xOf, yOf } from '../../src/core/geometry/index.ts';

/** A shield with half a circle below, of no ideal shape: half width 12 mm, straight down to y = −2, top at 14. */
const corners = [[-12, 14], [12, 14], ...arc(0, Math.PI)];
function arc(from: number, to: number): number[][] {
  return Array.from({ length: 61 }, (_, k) => {
    const t = from + ((to - from) * k) / 60;
    return [12 * Math.cos(t), -2 - 12 * Math.sin(t)];
  });
}
const truth = curveOf(resample([...corners, corners[0]].flat(), 720));

const within = (x: number, y: number): boolean => Math.abs(x) < 12 && y < 14 && (y > -2 || Math.hypot(x, y + 2) < 12);

/** Its face with a line all along, 3 mm within; `missing`: holes and notches. */
function face(missing: (x: number, y: number) => boolean = () => false): HeightGrid {
  const grid = emptyGrid(-14, 14, -16, 16, 0.1);
  for (let i = 0; i < grid.z.length; i++) {
    const [x, y] = [xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width))];
    const depth = Math.min(14 - y, y > -2 ? 12 - Math.abs(x) : 12 - Math.hypot(x, y + 2));
    grid.z[i] = Math.exp(-(((depth - 3) / 0.3) ** 2));
    grid.mask[i] = within(x, y) && !missing(x, y) ? 1 : 0;
  }
  return grid;
}

/** Nine tenths of the curve's places lie no farther from the true outline, mm; its two corners are rounded. */
const farthest = ({ x, y }: BaseCurve): number =>
  Array.from(x, (_, k) => Math.min(...truth.x.map((tx, i) => Math.hypot(tx - x[k], truth.y[i] - y[k])))).sort(
    (p, q) => p - q,
  )[Math.floor(0.9 * x.length)];

describe("the image's own outline as a curve", () => {
  test('follows an outline that is none of the ideal ones', () => {
    const [{ curve, shape }] = outlineCurve(bandRelief(face(), 'intaglio'), 'irregular');
    expect(farthest(curve)).toBeLessThan(0.2);
    expect(shape).toBe('free');
  });

  test('is not dented by holes and notches', () => {
    const notched = face((x, y) => Math.hypot(x - 11, y - 5) < 1.5 || Math.hypot(x, y) < 3);
    expect(farthest(outlineCurve(bandRelief(notched, 'intaglio'), 'shield')[0].curve)).toBeLessThan(0.2);
  });

  test('has no sides: nearly all of it reaches as far inward as letters lie', () => {
    const [{ curve }] = outlineCurve(bandRelief(face(), 'intaglio'), 'shield');
    const share = ({ reach }: BaseCurve): number => reach.filter((mm) => mm > 3.5).length / reach.length;
    expect(share(curve)).toBeGreaterThan(share(truth) - 0.01);
  });

  test('runs clockwise, as every curve, so that depths lead inward', () => {
    const [{ curve }] = outlineCurve(bandRelief(face(), 'intaglio'), 'shield');
    curve.x.forEach((x, k) => {
      expect(within(x + 2 * curve.nx[k], curve.y[k] + 2 * curve.ny[k])).toBe(true);
    });
  });

  test('explains more of a relief that runs parallel to it than of one that does not', () => {
    const across = face();
    for (let i = 0; i < across.z.length; i++) across.z[i] = Math.sin(2 * xOf(across, i % across.width));
    const explained = (grid: HeightGrid): number => outlineCurve(bandRelief(grid, 'intaglio'), 'shield')[0].explained;
    expect(explained(face())).toBeGreaterThan(3 * explained(across));
  });
});
