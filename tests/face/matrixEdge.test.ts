import { describe, expect, it } from 'vitest';
import { matrixEdge } from '../../src/core/face/matrixEdge.ts';
import { findOutline } from '../../src/core/face/outline.ts';
import { emptyGrid, type HeightGrid, removeForm, withHeights, xOf, yOf } from '../../src/core/geometry/index.ts';

/** How far outside the outline a place lies, mm. */
type Outside = (x: number, y: number) => number;

const round =
  (r: number): Outside =>
  (x, y) =>
    Math.hypot(x, y) - r;

/** Two arcs that meet in the points (0, ±h) and bulge to ±w. */
const pointed =
  (w: number, h: number): Outside =>
  (x, y) => {
    const r = (w * w + h * h) / (2 * w);
    return Math.hypot(Math.abs(x) + r - w, y) - r;
  };

/**
 * A face that is plane to its edge, `bevelMm` of slope `slope` beyond and a wall of `wallMm` after that; it stands `rimMm` over its field along the
 * last half millimetre, or is rounded by `roundMm` of fall along the last third of one; strokes are cut into it, and `lost` places are not there.
 */
function matrix(
  outside: Outside,
  {
    bevelMm = 0,
    slope = 1,
    wallMm = 0,
    rimMm = 0,
    roundMm = 0,
    strokes = false,
    lost = (_x: number, _y: number) => false,
  },
) {
  const grid = emptyGrid(-25, 25, -35, 35, 0.13);
  for (let i = 0; i < grid.z.length; i++) {
    const [x, y] = [xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width))];
    const e = outside(x, y);
    if (e > bevelMm + wallMm || lost(x, y)) continue;
    grid.mask[i] = 1;
    const stroke = strokes && e < -0.8 && Math.sin(3 * x) * Math.sin(3 * y) > 0.2 ? -0.4 : 0;
    const inside = stroke + (e > -0.5 ? rimMm : 0) - roundMm * Math.max(0, 1 + 3 * Math.min(e, 0)) ** 2;
    grid.z[i] = inside - slope * Math.max(0, Math.min(e, bevelMm)) - 6 * Math.max(0, e - bevelMm);
  }
  return { detail: grid, outline: outlineOf(grid) };
}

const outlineOf = (grid: HeightGrid) => findOutline(grid, grid.mask);

describe('the edge of a matrix', () => {
  it.each([
    ['without a flank', {}],
    ['with a bevel of 45°', { bevelMm: 1.5 }],
    ['with a flat bevel', { bevelMm: 2, slope: 0.6 }],
    ['with a steep one', { bevelMm: 0.8, slope: 3 }],
    ['with strokes', { bevelMm: 1.5, strokes: true }],
    ['with a narrow bevel over the wall of its body', { bevelMm: 0.5, slope: 0.6, wallMm: 0.4 }],
    ['with a rim that stands over its field', { bevelMm: 1.5, slope: 0.6, rimMm: 0.3 }],
    ['with both', { bevelMm: 0.5, slope: 0.6, wallMm: 0.4, rimMm: 0.3, strokes: true }],
    ['with an edge that wear rounded', { roundMm: 0.17 }],
  ])('of a round one, %s, is where its plane ends, within 0.15 mm', (_, how) => {
    const edge = matrixEdge(matrix(round(12), how));
    expect(edge.shape).toBe('round');
    expect(Math.abs(edge.heightMm - 24)).toBeLessThan(0.15);
    expect(edge.widthMm).toBe(edge.heightMm);
  });

  it('of a pointed oval is that of its arcs, points worn off and a broken side or not', () => {
    const lost = (x: number, y: number): boolean => Math.abs(y) > 29 || (x > 14 && y > 0 && y < 9);
    for (const how of [{}, { bevelMm: 1.2 }, { bevelMm: 1.2, strokes: true, lost }]) {
      const edge = matrixEdge(matrix(pointed(18, 30), how));
      expect(edge.shape).toBe('pointedOval');
      expect(Math.abs(edge.heightMm - 60)).toBeLessThan(0.3);
      expect(Math.abs(edge.widthMm - 36)).toBeLessThan(0.3);
    }
  });

  it('of a lozenge is its diagonals, however the face was put upright, of a rectangle whose corners are cut off its sides', () => {
    const lozenge =
      (deg: number): Outside =>
      (x, y) => {
        const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
        return (Math.abs(c * x + s * y) / 15 + Math.abs(c * y - s * x) / 20 - 1) * 12;
      };
    const rectangle =
      (cutMm: number): Outside =>
      (x, y) =>
        Math.max(Math.abs(x) - 15, Math.abs(y) - 18, (Math.abs(x) + Math.abs(y) - 33 + cutMm) / Math.SQRT2);
    const chipped = (x: number, y: number): boolean => Math.hypot(x - 15, y - 18) < 4;
    for (const [outside, shape, sides, how] of [
      [lozenge(0), 'lozenge', [30, 40], {}],
      [lozenge(25), 'lozenge', [30, 40], { bevelMm: 1.2, strokes: true }],
      [lozenge(70), 'lozenge', [30, 40], { lost: chipped }],
      [rectangle(5), 'polygonal', [30, 36], {}],
      [rectangle(8), 'polygonal', [30, 36], { bevelMm: 1.2, strokes: true }],
      [rectangle(0), 'square', [30, 36], { bevelMm: 1.2 }],
      [rectangle(0), 'square', [30, 36], { lost: chipped }],
    ] as const) {
      const { shape: told, widthMm, heightMm } = matrixEdge(matrix(outside, how));
      expect(told).toBe(shape);
      expect(Math.abs(Math.min(widthMm, heightMm) - sides[0])).toBeLessThan(0.5);
      expect(Math.abs(Math.max(widthMm, heightMm) - sides[1])).toBeLessThan(0.5);
    }
  });

  it('of a small one is there too, whose wide bevel has bent the form that was taken off', () => {
    const faces = [0, 1.2].map((dome) => {
      const { detail, outline } = matrix(round(6.5), { bevelMm: 1.5, strokes: true });
      const shaped = withHeights(
        detail,
        detail.z.map(
          (z, i) =>
            z - dome * ((xOf(detail, i % detail.width) ** 2 + yOf(detail, Math.floor(i / detail.width)) ** 2) / 64),
        ),
      );
      return { detail: removeForm(shaped, 2).detail, outline };
    });
    for (const face of faces) expect(Math.abs(matrixEdge(face).heightMm - 13)).toBeLessThan(0.15);
  });

  it('of no plain shape is the outline itself', () => {
    const { outline, ...grids } = matrix(round(12), {});
    const rough = { ...grids, outline: { ...outline, shape: 'irregular' as const } };
    expect(matrixEdge(rough)).toEqual({ shape: 'irregular', widthMm: outline.widthMm, heightMm: outline.heightMm });
  });
});
