import { describe, expect, it } from 'vitest';
import { crossingDefaults, crossingLines } from '../../../../src/core/condition/marks/lines/crossingLines.ts';
import { houghLines } from '../../../../src/core/condition/marks/lines/houghLines.ts';
import type { LineMark } from '../../../../src/core/condition/marks/lines/lines.ts';
import { walkDefaults, walkLine, walkRefitted } from '../../../../src/core/condition/marks/lines/walkLine.ts';
import { lossField } from '../../../../src/core/condition/relief/loss.ts';
import { seededRandom } from '../../../../src/core/geometry/index.ts';
import { cellsWhere, designHeight, gridOf, inBand, pair, pitch, type Surface } from '../../pressedSeal.ts';

/** A ridge of triangular section along the x axis turned by `deg` about (0, y0); it lies on the ground, so higher forms hide it. */
const ridge = (
  base: Surface,
  {
    y0 = 0,
    deg = 0,
    from = -40,
    to = 40,
    width = 0.8,
    high = 0.45,
    wander = 0,
  }: { y0?: number; deg?: number; from?: number; to?: number; width?: number; high?: number; wander?: number },
): Surface => {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  return (x, y) => {
    const h = base(x, y);
    const along = x * c + (y - y0) * s;
    if (along < from || along > to) return h;
    const aside = Math.abs((y - y0) * c - x * s - wander * Math.sin(along));
    return aside > width / 2 ? h : Math.max(h, high * (1 - aside / (width / 2)));
  };
};

/** The search on a surface that both faces show. */
function searchOn(surface: Surface): (options?: typeof crossingDefaults) => LineMark[] {
  const seen = pair(surface, surface);
  const field = lossField(seen);
  const band = cellsWhere(seen.reference, inBand);
  return (options = crossingDefaults) => crossingLines(seen, field, [], band, options);
}

const linesOnBoth = (surface: Surface): LineMark[] => searchOn(surface)();

describe('houghLines', () => {
  const grid = gridOf(() => 0);
  const onLine = (col: number, row: number, deg: number, count: number): number[] =>
    Array.from({ length: count }, (_, k) => {
      const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
      return Math.round(row - k * s) * grid.width + Math.round(col + k * c);
    });

  it('finds two lines among stray crests, the fuller first, and puts no crest on both', () => {
    const random = seededRandom(5);
    const stray = Array.from({ length: 150 }, () => Math.floor(random.next() * grid.z.length));
    const angles = new Map<number, number>(stray.map((cell) => [cell, random.next() * Math.PI]));
    const [a, b] = [onLine(30, 150, 35, 100), onLine(40, 40, 170, 60)];
    for (const cell of a) angles.set(cell, (35 * Math.PI) / 180);
    for (const cell of b) angles.set(cell, (170 * Math.PI) / 180);
    const [one, two, ...rest] = houghLines(grid, [...angles.keys()], (cell) => angles.get(cell) as number, 40);
    expect(rest).toEqual([]);
    // A strip of five cells lets lines of 60 and 100 cells lean by so much.
    expect(Math.abs((one.angle * 180) / Math.PI - 35)).toBeLessThan(3);
    expect(Math.abs((two.angle * 180) / Math.PI - 170)).toBeLessThan(5);
    expect(one.cells.filter((cell) => a.includes(cell)).length).toBeGreaterThan(90);
    expect(one.cells.filter((cell) => two.cells.includes(cell))).toEqual([]);
  });
});

describe('what a design crosses its own band with', () => {
  const bare: Surface = (x, y) => (Math.hypot(x, y) < 11 ? 0 : designHeight(x, y));
  const star = (rays: number): Surface =>
    Array.from({ length: rays }).reduce<Surface>(
      (base, _, k) => ridge(base, { deg: 7 + (180 * k) / rays, from: -16.5, to: 16.5, high: 0.5 }),
      bare,
    );

  it('is no mark: of a star of twelve bars none counts, of one bar that one', () => {
    const onStar = searchOn(star(12));
    expect(onStar()).toEqual([]);
    expect(onStar({ ...crossingDefaults, byChance: 1 }).length).toBeGreaterThan(5);
    expect(linesOnBoth(star(1))).toHaveLength(1);
  });
});

describe('walkLine', () => {
  const along = { angle: 0, rho: 0, cells: [] as number[] };
  /** Walks the row of cells through y = 0. */
  const walked = (surface: Surface) => {
    const grid = gridOf(surface);
    const row = Math.round(grid.top / grid.pitch);
    const cells = Array.from({ length: grid.width - 8 }, (_, k) => row * grid.width + k + 4);
    return walkLine([grid], [grid.z], { ...along, rho: row, cells });
  };

  it('passes over what stands higher, and says how much of the way was hidden', () => {
    const boss: Surface = (x, y) => 0.8 * Math.max(0, 1 - (x * x + y * y) / 16);
    const line = walked(ridge(boss, { from: -12, to: 12 }));
    expect(line?.lengthMm).toBeCloseTo(24, -0.3);
    expect(line?.hiddenMm).toBeGreaterThan(3);
    expect(line?.absentMm).toBeLessThan(1);
  });

  it('ends where the ground is bare, whatever lies beyond in the same line', () => {
    const stroke: Surface = (x, y) => (x > 6 && x < 10 && Math.abs(y) < 0.4 ? 0.45 : 0);
    const line = walked(ridge(stroke, { from: -12, to: 2 }));
    expect(line?.lengthMm).toBeCloseTo(14, -0.3);
  });
});

describe('walkRefitted', () => {
  it('comes to both ends of a long line whose angle was known to four degrees only', () => {
    const grid = gridOf(ridge(() => 0, { deg: 4, from: -16, to: 16 }));
    const row = Math.round(grid.top / grid.pitch);
    const cells = Array.from({ length: 20 }, (_, k) => row * grid.width + Math.round(grid.width / 2) + k - 10);
    const start = { angle: 0, rho: row, cells };
    const options = { ...walkDefaults, asideMm: 0.2 };
    expect(walkLine([grid], [grid.z], start, undefined, options)?.lengthMm).toBeLessThan(20);
    expect(walkRefitted([grid], [grid.z], start, undefined, options)?.lengthMm).toBeGreaterThan(30);
  });
});

describe('crossingLines', () => {
  it('finds nothing on a face without such a line', () => {
    expect(linesOnBoth(designHeight)).toEqual([]);
  });

  it.each([0, 25, 70, 115, 160])('finds a cut through the whole face at %s°', (deg) => {
    const [line, ...rest] = linesOnBoth(ridge(designHeight, { deg, y0: 3 }));
    expect(rest).toEqual([]);
    expect(line.carriedBy).toBe('both');
    const found = (Math.atan2(line.chain.uy, line.chain.ux) * 180) / Math.PI;
    expect(Math.min(...[-180, 0, 180].map((turn) => Math.abs(found - deg + turn)))).toBeLessThan(1.5);
    expect(line.chain.strayMm).toBeLessThan(2 * pitch);
  });

  it('does not take a cut’s other end for a place of the design: one through the middle crosses the same band alike', () => {
    expect(linesOnBoth(ridge(designHeight, { deg: 45 }))).toHaveLength(1);
  });

  it('finds one that crosses the legend on one side and ends in the field', () => {
    expect(linesOnBoth(ridge(designHeight, { y0: -7, from: -40, to: 2 }))).toHaveLength(1);
  });

  it('finds a thin one that wanders', () => {
    const [crack] = linesOnBoth(
      ridge(designHeight, { y0: 7, deg: 12, from: -40, to: 3, width: 0.5, high: 0.3, wander: 0.3 }),
    );
    expect(crack).toBeDefined();
  });

  it('takes a staff that stays within the field, and a frame, for what they are', () => {
    const staff = ridge(designHeight, { y0: 7, from: -8, to: 8 });
    const frame: Surface = (x, y) => {
      const far = Math.max(Math.abs(x), Math.abs(y));
      return Math.max(designHeight(x, y), 0.4 * Math.max(0, 1 - Math.abs(far - 8) / 0.4));
    };
    expect(linesOnBoth(staff)).toEqual([]);
    expect(linesOnBoth(frame)).toEqual([]);
  });

  it('takes a stem of a letter in line with a staff for two things: bare ground lies between', () => {
    const inLine = ridge(ridge(designHeight, { y0: 7, from: -7, to: 7 }), { y0: 7, from: -13, to: -9.5 });
    expect(linesOnBoth(inLine)).toEqual([]);
  });

  it('takes a limb and the lower stroke that carries it on through the legend for two things', () => {
    const through = (inner: number, outer: number): Surface =>
      ridge(ridge(designHeight, { y0: 7, from: -9.5, to: 2, high: inner }), {
        y0: 7,
        from: -40,
        to: -9.5,
        high: outer,
      });
    expect(linesOnBoth(through(0.45, 0.45))).toHaveLength(1);
    const ofTwo = searchOn(through(0.51, 0.22));
    const byHeightAlone = { ...crossingDefaults, byChance: 1, sinks: 1 };
    expect(ofTwo({ ...byHeightAlone, mostBeyond: Number.POSITIVE_INFINITY })).toHaveLength(1);
    expect(ofTwo(byHeightAlone)).toEqual([]);
  });
});
