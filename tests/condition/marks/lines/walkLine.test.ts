import { describe, expect, it } from 'vitest';
import { walkLine } from '../../../../src/core/condition/marks/lines/walkLine.ts';
import { emptyGrid, type HeightGrid, quantile } from '../../../../src/core/geometry/index.ts';

const pitch = 0.2;

/** Heights over columns and rows counted from the grid's corner, mm; data everywhere. */
function gridOf(height: (x: number, y: number) => number): HeightGrid {
  const grid = emptyGrid(0, 30, 0, 20, pitch);
  grid.mask.fill(1);
  for (let i = 0; i < grid.z.length; i++)
    grid.z[i] = height((i % grid.width) * pitch, Math.floor(i / grid.width) * pitch);
  return grid;
}

const y0 = 10;
/** Straight line along the columns in the row of `y0`. */
const lineIn = (grid: HeightGrid, from = 4, to = 26) => ({
  angle: 0,
  rho: Math.round(y0 / pitch),
  cells: Array.from(
    { length: Math.round((to - from) / pitch) },
    (_, k) => Math.round(y0 / pitch) * grid.width + Math.round(from / pitch) + k,
  ),
});

/** A ridge 0.2 mm high and one cell to either side of `y`, where `stands` says so; 0 elsewhere. */
const ridge = (stands: (x: number) => number) => (x: number, y: number) =>
  stands(x) * Math.max(0, 1 - Math.abs(y - y0) / 0.35);

const between = (x: number, from: number, to: number): boolean => x > from - 1e-6 && x < to - 1e-6;
const walk = (grid: HeightGrid, line = lineIn(grid), sound?: (cell: number) => boolean, heights = grid.z) =>
  walkLine([grid], [heights], line, sound);

describe('walking a line', () => {
  it('gives the length, crest and evenness of a ridge of one height', () => {
    const grid = gridOf(ridge((x) => (between(x, 5, 25) ? 0.2 : 0)));
    const line = walk(grid);
    expect(line?.lengthMm).toBeCloseTo(20, 6);
    expect(line?.standsMm).toBeCloseTo(20, 6);
    expect(line?.hiddenMm).toBe(0);
    expect(line?.absentMm).toBe(0);
    expect(line?.crestMm).toBeCloseTo(0.2, 6);
    expect(line?.sinks).toBeCloseTo(0, 5);
    expect(line?.cells).toEqual(line?.way);
    expect(line?.cells.every((i) => Math.floor(i / grid.width) === Math.round(y0 / pitch))).toBe(true);
  });

  it('measures the crest, and how far it sinks, as quantiles over what stands', () => {
    const tall = (x: number): number => 0.2 + 0.1 * Math.sin(x);
    const grid = gridOf(ridge((x) => (between(x, 5, 25) ? tall(x) : 0)));
    const line = walk(grid);
    const crests = Array.from({ length: 100 }, (_, k) => tall(5 + k * pitch));
    expect(line?.crestMm).toBeCloseTo(quantile(crests, 0.5), 5);
    expect(line?.sinks).toBeCloseTo(1 - quantile(crests, 0.25) / quantile(crests, 0.5), 4);
  });

  it('stands over the higher of both sides', () => {
    // One side a step of 0.12 mm: the crest is what stands over that.
    const grid = gridOf((x, y) => (y > y0 + 0.3 ? 0.12 : 0) + ridge(() => 0.2)(x, y) * (y > y0 + 0.3 ? 0 : 1));
    expect(walk(grid)?.crestMm).toBeCloseTo(0.08, 5);
    const other = gridOf((x, y) => (y < y0 - 0.3 ? 0.12 : 0) + ridge(() => 0.2)(x, y) * (y < y0 - 0.3 ? 0 : 1));
    expect(walk(other)?.crestMm).toBeCloseTo(0.08, 5);
  });

  it('takes the better of two distances: sides that a broad line reaches over do not end it', () => {
    // Half a millimetre wide at full height: level with its near side at 0.4 mm, above the far one at 0.8 mm.
    const grid = gridOf((_, y) => (Math.abs(y - y0) < 0.5 ? 0.2 : 0));
    expect(walk(grid)?.crestMm).toBeCloseTo(0.2, 5);
    const wider = gridOf((_, y) => (Math.abs(y - y0) < 1 ? 0.2 : 0));
    expect(walk(wider)).toBeNull();
  });

  it('sees least of what several faces show, and nothing where one has no data', () => {
    const [high, low] = [gridOf(ridge(() => 0.2)), gridOf(ridge(() => 0.15))];
    const both = walkLine([high, low], [high.z, low.z], lineIn(high));
    expect(both?.crestMm).toBeCloseTo(0.15, 5);
    expect(walkLine([low, high], [low.z, high.z], lineIn(high))?.crestMm).toBeCloseTo(0.15, 5);
    low.mask.forEach((_, i) => {
      if ((i % low.width) * pitch > 15) low.mask[i] = 0;
    });
    expect(walkLine([high, low], [high.z, low.z], lineIn(high))?.standsMm).toBeLessThan(15);
    expect(walkLine([high], [high.z], lineIn(high))?.standsMm).toBeGreaterThan(25);
  });

  it('bridges bare ground only when three times as much stands beyond', () => {
    // 8 mm stand, 1 mm is bare, then more stands: with less than 3 mm the walk ends before the gap.
    const gapped = (beyond: number) =>
      gridOf(ridge((x) => (between(x, 6, 14) || between(x, 15, 15 + beyond) ? 0.2 : 0)));
    const short = walk(gapped(2.8));
    expect(short?.lengthMm).toBeCloseTo(8, 6);
    expect(short?.absentMm).toBe(0);
    const long = walk(gapped(3.4));
    expect(long?.lengthMm).toBeCloseTo(8 + 1 + 3.4, 6);
    expect(long?.absentMm).toBeCloseTo(1, 6);
    expect(long?.standsMm).toBeCloseTo(11.4, 6);
    // And before what stands as well as after it.
    const first = walk(gridOf(ridge((x) => (between(x, 6, 8.8) || between(x, 9.8, 17.8) ? 0.2 : 0))));
    expect(first?.lengthMm).toBeCloseTo(8, 6);
  });

  it('takes no ground as bare that would not tell', () => {
    const grid = gridOf(ridge((x) => (between(x, 6, 14) || between(x, 16, 18) ? 0.2 : 0)));
    const line = walk(grid, lineIn(grid), (i) => !between((i % grid.width) * pitch, 14, 16));
    expect(line?.lengthMm).toBeCloseTo(12, 6);
    expect(line?.absentMm).toBe(0);
    expect(line?.standsMm).toBeCloseTo(10, 6);
  });

  it('is hidden where the design has eight tenths of its usual height', () => {
    const boss = (high: number) => {
      const grid = gridOf(ridge((x) => (between(x, 6, 14) || between(x, 16, 24) ? 0.2 : 0)));
      const heights = grid.z.map((z, i) => (between((i % grid.width) * pitch, 14, 16) ? high : z));
      return walk(grid, lineIn(grid, 6, 24), undefined, heights);
    };
    expect(boss(0.17)?.hiddenMm).toBeCloseTo(2, 6);
    expect(boss(0.17)?.absentMm).toBe(0);
    expect(boss(0.15)?.hiddenMm).toBe(0);
    expect(boss(0.15)?.absentMm).toBeCloseTo(2, 6);
  });

  it('stands from three tenths of its usual crest on, and from 0.02 mm', () => {
    const weak = (share: number, tall = 0.2) =>
      walk(gridOf(ridge((x) => (between(x, 6, 16) ? tall : between(x, 16, 19) ? share * tall : 0))));
    expect(weak(0.31)?.standsMm).toBeCloseTo(13, 6);
    expect(weak(0.29)?.standsMm).toBeCloseTo(10, 6);
    expect(weak(0.45, 0.05)?.standsMm).toBeCloseTo(13, 6);
    expect(weak(0.35, 0.05)?.standsMm).toBeCloseTo(10, 6);
  });

  it('follows a course that wanders within 0.6 mm, and no farther', () => {
    const wandering = (by: number) =>
      gridOf((x, y) => 0.2 * Math.max(0, 1 - Math.abs(y - y0 - by * Math.sin((x - 15) / 4)) / 0.35));
    const near = walk(wandering(0.55));
    expect(near?.standsMm).toBeGreaterThan(27);
    const rows = near?.way.map((i) => Math.floor(i / 151)) ?? [];
    expect(Math.max(...rows) - Math.min(...rows)).toBe(6);
    expect(walk(wandering(3))?.standsMm ?? 0).toBeLessThan(15);
  });

  it('runs at any angle as it runs along the rows', () => {
    for (const turn of [-60, -35, 20, 50, 90, 140]) {
      const [c, s] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
      // Along (cos, −sin): rows run downward; through the middle of the grid.
      const grid = gridOf((x, y) => {
        const [along, aside] = [(x - 15) * c - (y - 10) * s, (x - 15) * s + (y - 10) * c];
        return Math.abs(along) < 6 ? 0.2 * Math.max(0, 1 - Math.abs(aside) / 0.45) : 0;
      });
      const cells = Array.from(
        { length: 55 },
        (_, k) =>
          Math.round((10 - (k - 27) * pitch * s) / pitch) * grid.width +
          Math.round((15 + (k - 27) * pitch * c) / pitch),
      );
      const line = walk(grid, { angle: (turn * Math.PI) / 180, rho: (15 * s + 10 * c) / pitch, cells });
      expect(Math.abs((line?.lengthMm ?? 0) - 12)).toBeLessThan(0.8);
      expect(line?.absentMm).toBeLessThan(0.3);
    }
  });

  it('is nothing where fewer than three crests or cells stand', () => {
    const grid = gridOf(() => 0);
    expect(walk(grid)).toBeNull();
    expect(walk(gridOf(ridge((x) => (between(x, 6, 6.4) ? 0.2 : 0))))).toBeNull();
    expect(walk(gridOf(ridge((x) => (between(x, 6, 6.6) ? 0.2 : 0))))).not.toBeNull();
    expect(walkLine([grid], [grid.z], { angle: 0, rho: -900, cells: [] })).toBeNull();
  });
});
