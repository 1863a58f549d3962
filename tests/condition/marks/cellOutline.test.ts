import { describe, expect, it } from 'vitest';
import { cellOutline, cellOutlines, cellsOfMark } from '../../../src/core/condition/marks/cellOutline.ts';
import { emptyGrid, seededRandom } from '../../../src/core/geometry/index.ts';

const pitch = 0.5;
const grid = emptyGrid(-10, 12, -6, 9, pitch);
const { width, height, left, top } = grid;
const xy = (i: number): [number, number] => [left + (i % width) * pitch, top - Math.floor(i / width) * pitch];
const where = (test: (x: number, y: number) => boolean): number[] => [...grid.z.keys()].filter((i) => test(...xy(i)));

/** Signed area, counter-clockwise positive, mm². */
function area(outline: Float64Array): number {
  let sum = 0;
  for (let k = 0, n = outline.length; k < n; k += 2)
    sum += outline[k] * outline[(k + 3) % n] - outline[(k + 2) % n] * outline[k + 1];
  return sum / 2;
}

/** Whether a place lies inside, by the crossings of a ray. */
function holds(outline: Float64Array, x: number, y: number): boolean {
  let inside = false;
  for (let k = 0, n = outline.length; k < n; k += 2) {
    const [ax, ay, bx, by] = [outline[k], outline[k + 1], outline[(k + 2) % n], outline[(k + 3) % n]];
    if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) inside = !inside;
  }
  return inside;
}

describe('the outline of cells', () => {
  it('of a rectangle is its four corners, half a cell outside the centres, counter-clockwise', () => {
    const outline = cellOutline(
      grid,
      where((x, y) => x >= -2 && x <= 4 && y >= 0 && y <= 3),
    );
    const corners = Array.from({ length: outline.length / 2 }, (_, k) => `${outline[2 * k]} ${outline[2 * k + 1]}`);
    for (const corner of ['-2.25 -0.25', '4.25 -0.25', '4.25 3.25', '-2.25 3.25']) expect(corners).toContain(corner);
    expect(area(outline)).toBeCloseTo(6.5 * 3.5, 9);
    // Two more at most, where the closed way is begun and halved.
    expect(corners.length).toBeLessThanOrEqual(6);
  });

  it('holds exactly the cells of a round spot, to a cell at its rim', () => {
    const cells = where((x, y) => Math.hypot(x - 1, y - 1) < 3.7);
    const outline = cellOutline(grid, cells);
    expect(Math.abs(area(outline) - cells.length * pitch ** 2)).toBeLessThan(0.04 * cells.length * pitch ** 2);
    for (let i = 0; i < grid.z.length; i++) {
      const r = Math.hypot(xy(i)[0] - 1, xy(i)[1] - 1);
      if (Math.abs(r - 3.7) > 0.6 * pitch) expect(holds(outline, ...xy(i))).toBe(r < 3.7);
    }
    expect(outline.length / 2).toBeLessThan(32);
  });

  it('turns with what it goes round: moved, mirrored', () => {
    const form = (x: number, y: number): boolean =>
      (Math.abs(x) < 4.1 && Math.abs(y - 1) < 1.1) || (x > 2 && x < 4.1 && y > 0 && y < 4.6);
    const [a, b] = [
      cellOutline(grid, where(form)),
      cellOutline(
        grid,
        where((x, y) => form(x - 1.5, y + 2)),
      ),
    ];
    expect(area(a)).toBeCloseTo(area(b), 9);
    expect(Math.min(...b.filter((_, k) => k % 2 === 0))).toBeCloseTo(
      Math.min(...a.filter((_, k) => k % 2 === 0)) + 1.5,
      9,
    );
    expect(Math.max(...b.filter((_, k) => k % 2 === 1))).toBeCloseTo(
      Math.max(...a.filter((_, k) => k % 2 === 1)) - 2,
      9,
    );
    const mirrored = cellOutline(
      grid,
      where((x, y) => form(-x, y)),
    );
    expect(area(mirrored)).toBeCloseTo(area(a), 9);
  });

  it('of a ring is the outer way; all ways give the hole too, clockwise', () => {
    const ring = where(
      (x, y) => Math.max(Math.abs(x - 1), Math.abs(y - 1)) < 4.1 && Math.max(Math.abs(x - 1), Math.abs(y - 1)) > 1.6,
    );
    expect(area(cellOutline(grid, ring))).toBeCloseTo(8.5 ** 2, 9);
    const ways = cellOutlines(grid, ring)
      .map(area)
      .sort((a, b) => a - b);
    expect(ways).toHaveLength(2);
    expect(ways[0]).toBeCloseTo(-(3.5 ** 2), 9);
    expect(ways[1]).toBeCloseTo(8.5 ** 2, 9);
  });

  it('encloses every cell at the grid’s own edges: rows do not run into one another', () => {
    const all = [...grid.z.keys()];
    expect(area(cellOutline(grid, all))).toBeCloseTo(width * height * pitch ** 2, 6);
    const right = where((x) => x > left + (width - 3) * pitch);
    expect(area(cellOutline(grid, right))).toBeCloseTo(2 * height * pitch ** 2, 6);
    const both = [...where((x) => x < left + 0.1), ...right];
    expect(
      cellOutlines(grid, both)
        .map(area)
        .reduce((sum, a) => sum + a, 0),
    ).toBeCloseTo(3 * height * pitch ** 2, 6);
  });

  it('closes round every scattered set of cells: areas sum to theirs where nothing is thinned', () => {
    const random = seededRandom(6);
    for (let round = 0; round < 6; round++) {
      const [cx, cy, r] = [random.between(-4, 5), random.between(-2, 4), random.between(1, 3)];
      const cells = where((x, y) => Math.abs(x - cx) < r && Math.abs(y - cy) < 2 * r);
      expect(area(cellOutline(grid, cells))).toBeCloseTo(cells.length * pitch ** 2, 6);
    }
    expect(cellOutline(grid, [])).toHaveLength(0);
  });

  it('leaves out steps of a cell along a slanting edge and keeps a notch of two', () => {
    const slanted = cellOutline(
      grid,
      where((x, y) => y > 0.3 * x - 2 && y < 0.3 * x + 2 && Math.abs(x) < 6),
    );
    expect(slanted.length / 2).toBeLessThan(28);
    const notch = cellOutline(
      grid,
      where((x, y) => Math.abs(x) < 5.1 && Math.abs(y) < 3.1 && !(Math.abs(x) < 0.9 && y > 2.1)),
    );
    const full = 21 * 13;
    expect(area(notch)).toBeCloseTo((full - 3 * 2) * pitch ** 2, 6);
  });
});

describe('the cells of a mark', () => {
  const square = Float64Array.of(1, 0, 4, 0, 4, 2, 1, 2);
  const extent = (cells: readonly number[]) => {
    const places = cells.map(xy);
    return [
      Math.min(...places.map(([x]) => x)),
      Math.max(...places.map(([x]) => x)),
      Math.min(...places.map(([, y]) => y)),
      Math.max(...places.map(([, y]) => y)),
    ];
  };

  it('are those within it and a third of a millimetre about, one cell at least', () => {
    const [x0, x1, y0, y1] = extent(cellsOfMark({ reference: grid, turned: false }, { outline: square }));
    expect(Math.abs(x0 - 0.5)).toBeLessThan(0.51);
    expect(Math.abs(x1 - 4.5)).toBeLessThan(0.51);
    expect(Math.abs(y0 + 0.5)).toBeLessThan(0.51);
    expect(Math.abs(y1 - 2.5)).toBeLessThan(0.51);
  });

  it('lie mirrored where the reference is turned over', () => {
    const [x0, x1] = extent(cellsOfMark({ reference: grid, turned: true }, { outline: square }));
    expect(x0).toBeLessThan(-4);
    expect(x1).toBeGreaterThan(-1);
    expect(x1).toBeLessThan(0.1);
  });

  it.each([
    [0.1, 2],
    [0.2, 2],
    [0.3, 1],
    [0.14, 2],
    [0.25, 1],
    [1, 1],
  ])('reach on cells of %s mm %s cells beyond', (cell, reach) => {
    const fine = emptyGrid(-6, 6, -6, 6, cell);
    const outline = Float64Array.of(-2, -2, 2.04, -2, 2.04, 2.04, -2, 2.04);
    const cells = new Set(cellsOfMark({ reference: fine, turned: false }, { outline }));
    const within = [...fine.z.keys()].filter((i) =>
      holds(outline, fine.left + (i % fine.width) * cell, fine.top - Math.floor(i / fine.width) * cell),
    );
    const cols = within.map((i) => i % fine.width);
    const all = [...cells].map((i) => i % fine.width);
    expect(Math.max(...all)).toBe(Math.max(...cols) + reach);
    expect(Math.min(...all)).toBe(Math.min(...cols) - reach);
  });

  it('stay within the grid', () => {
    const corner = Float64Array.of(10, 7, 12, 7, 12, 9, 10, 9);
    expect(
      cellsOfMark({ reference: grid, turned: false }, { outline: corner }).every((i) => i >= 0 && i < grid.z.length),
    ).toBe(true);
  });
});
