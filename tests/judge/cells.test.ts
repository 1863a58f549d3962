import { describe, expect, it } from 'vitest';
import { emptyGrid, type HeightGrid, seededRandom, xOf, yOf } from '../../src/core/geometry/index.ts';
import { bandInCells, cellDefaults, congruentCells } from '../../src/core/judge/cells.ts';
import { shiftedCorrelation } from '../../src/core/judge/registerWindow.ts';
import { bumps, gridOf, type Relief, reliefOf } from '../fit/relief.ts';

const sizeMm = 18;
const pitch = 0.1;
const side = Math.round(sizeMm / cellDefaults.across / pitch);
const relief = bumps(1, 9, 260, 0.3);
const draw = (of: Relief): HeightGrid => gridOf(of, 9, pitch);
const moved = (of: Relief, dx: number, dy: number): Relief => reliefOf((x, y) => of.height(x - dx, y - dy));
const die = draw(relief);

describe('congruentCells', () => {
  it('finds every cell of a surface congruent with itself, nothing moved', () => {
    const { compared, congruent, cells } = congruentCells(die, die, sizeMm);
    expect(compared).toBeGreaterThan(40);
    expect(congruent).toBe(compared);
    for (const cell of cells) {
      expect(cell.correlation).toBeCloseTo(1, 6);
      expect(Math.hypot(cell.dx, cell.dy)).toBeLessThan(0.03);
    }
  });

  it('measures a shift of the whole face well below a grid cell, and takes no offence at it', () => {
    const [dx, dy] = [0.23, -0.16];
    const { compared, congruent, cells } = congruentCells(die, draw(moved(relief, dx, dy)), sizeMm);
    expect(congruent).toBe(compared);
    const off = cells.map((cell) => Math.hypot(cell.dx - dx, cell.dy - dy)).sort((a, b) => a - b);
    expect(off[off.length >> 1]).toBeLessThan(0.2 * pitch);
    expect(off[off.length - 1]).toBeLessThan(0.7 * pitch);
  });

  it('finds the one cell that a copyist set apart, and lets the others stand', () => {
    const copy = draw(relief);
    const set = draw(moved(relief, 0.3, 0.2));
    for (let row = 3 * side - 2; row < 4 * side; row++)
      for (let col = 2 * side; col < 3 * side + 3; col++)
        copy.z[row * copy.width + col] = set.z[row * copy.width + col];
    const { cells, compared, congruent } = congruentCells(die, copy, sizeMm);
    const [x, y] = [xOf(die, 2 * side + (side - 1) / 2), yOf(die, 3 * side + (side - 1) / 2)];
    const apart = cells.find((cell) => Math.hypot(cell.x - x, cell.y - y) < pitch);
    expect(apart?.congruent).toBe(false);
    expect(Math.hypot((apart?.dx ?? 0) - 0.3, (apart?.dy ?? 0) - 0.2)).toBeLessThan(0.04);
    // One neighbour shares a strip with it.
    expect(compared - congruent).toBeLessThanOrEqual(2);
  });

  it('finds few cells congruent between surfaces that have nothing in common', () => {
    const { compared, congruent } = congruentCells(die, draw(bumps(2, 9, 260, 0.3)), sizeMm);
    expect(compared).toBeGreaterThan(40);
    expect(congruent / compared).toBeLessThan(0.2);
  });

  // The published gates are inclusive (R Journal 14(4), 2022, on Song's method).
  it('counts a cell that lies exactly on a gate', () => {
    const random = seededRandom(3);
    const noisy = draw(moved(relief, 0, 0));
    for (let i = 0; i < noisy.z.length; i++) noisy.z[i] += 0.05 * random.normal();
    const found = congruentCells(die, noisy, sizeMm).cells;
    const least = Math.min(...found.map((cell) => cell.correlation));
    const most = Math.max(...found.map((cell) => cell.offsetMm));
    const exact = { ...cellDefaults, leastCorrelation: least, shiftShare: 0, leastShiftMm: most, turnDeg: 0 };
    const congruentWith = (gates: typeof exact): number => congruentCells(die, noisy, sizeMm, gates).congruent;
    expect(least).toBeLessThan(0.999);
    expect(congruentWith(exact)).toBe(found.length);
    expect(congruentWith({ ...exact, leastCorrelation: least + 1e-9 })).toBe(found.length - 1);
    expect(congruentWith({ ...exact, leastShiftMm: most - 1e-9 })).toBe(found.length - 1);
  });

  it('does not compare plain field, nor cells that are mostly without data', () => {
    const half = draw(reliefOf((x, y) => (x < 0 ? relief.height(x, y) : 1e-4 * relief.height(x, y))));
    for (const { x } of congruentCells(half, half, sizeMm).cells) expect(x).toBeLessThan(side * pitch);
    const torn = draw(relief);
    for (let row = 0; row < torn.height; row++)
      for (let col = 0; col < torn.width; col++) if (yOf(torn, row) > 0) torn.mask[row * torn.width + col] = 0;
    const { cells, compared, congruent } = congruentCells(die, torn, sizeMm);
    expect(congruent).toBe(compared);
    expect(compared).toBeGreaterThan(20);
    for (const { y } of cells) expect(y).toBeLessThan(side * pitch);
  });

  it('lets a cell that holds one straight stroke count only across the stroke', () => {
    // A straight stroke, deeper at one faint place, which lies further along on the copy.
    const stroke = (along: number, across: number): Relief =>
      reliefOf((x, y) => {
        if (Math.hypot(x, y) > 2.2) return relief.height(x, y);
        const [u, v] = [0.6 * x + 0.8 * y, -0.8 * x + 0.6 * y - across];
        return 0.4 * Math.exp(-((v / 0.2) ** 2)) * (1 + 0.06 * Math.exp(-(((u - along) / 0.5) ** 2)));
      });
    const atCentre = ({ x, y }: { x: number; y: number }): boolean => Math.hypot(x, y) < 0.3;
    const alongOnly = congruentCells(draw(stroke(0, 0)), draw(stroke(0.3, 0)), sizeMm).cells.find(atCentre);
    const across = congruentCells(draw(stroke(0, 0)), draw(stroke(0, 0.3)), sizeMm).cells.find(atCentre);
    const found = Math.hypot(alongOnly?.dx ?? 0, alongOnly?.dy ?? 0);
    expect(found).toBeGreaterThan(0.15);
    expect(alongOnly?.offsetMm).toBeLessThan(0.35 * found);
    expect(alongOnly?.congruent).toBe(true);
    expect(across?.offsetMm).toBeGreaterThan(0.2);
    expect(across?.congruent).toBe(false);
  });

  it('gives no cells for an empty face', () => {
    const empty = emptyGrid(-9, 9, -9, 9, pitch);
    expect(congruentCells(empty, empty, sizeMm)).toEqual({ compared: 0, congruent: 0, cells: [] });
  });

  it('scales with the model when its gates do', () => {
    const copy = draw(moved(relief, 0.2, 0.1));
    const large = (grid: HeightGrid): HeightGrid => ({
      ...grid,
      pitch: 10 * grid.pitch,
      left: 10 * grid.left,
      top: 10 * grid.top,
      z: grid.z.map((z) => 10 * z),
    });
    const gates = { ...cellDefaults, leastShiftMm: 1.2, reachMm: 5 };
    const [small, big] = [
      congruentCells(die, copy, sizeMm),
      congruentCells(large(die), large(copy), 10 * sizeMm, gates),
    ];
    expect(big.compared).toBe(small.compared);
    expect(big.congruent).toBe(small.congruent);
    big.cells.forEach((cell, i) => {
      expect(cell.offsetMm).toBeCloseTo(10 * small.cells[i].offsetMm, 4);
    });
  });
});

describe('shiftedCorrelation', () => {
  it('agrees with Pearson by its definition, over the cells where both have data', () => {
    const other = draw(bumps(5, 9, 260, 0.3));
    const random = seededRandom(6);
    for (let i = 0; i < other.mask.length; i++) if (random.next() < 0.2) other.mask[i] = 0;
    const pairs: [number, number][] = [];
    for (let row = 40; row < 60; row++)
      for (let col = 70; col < 90; col++) {
        const j = (row - 3) * other.width + col + 4;
        if (other.mask[j]) pairs.push([die.z[row * die.width + col], other.z[j]]);
      }
    const mean = (k: 0 | 1): number => pairs.reduce((sum, pair) => sum + pair[k], 0) / pairs.length;
    const [ma, mb] = [mean(0), mean(1)];
    const sum = (f: (a: number, b: number) => number): number =>
      pairs.reduce((total, [a, b]) => total + f(a - ma, b - mb), 0);
    const expected = sum((a, b) => a * b) / Math.sqrt(sum((a) => a * a) * sum((_, b) => b * b));
    expect(shiftedCorrelation(die, other, 70, 40, 20, 4, -3)).toBeCloseTo(expected, 10);
  });

  it('says −1 where less than half of the cell has a counterpart', () => {
    expect(shiftedCorrelation(die, die, 0, 0, 20, -11, 0)).toBe(-1);
    expect(shiftedCorrelation(die, die, 0, 0, 20, -10, 0)).toBeGreaterThan(-1);
  });
});

describe('bandInCells', () => {
  it('compares another band at the places where the cells lie', () => {
    const copy = draw(moved(relief, 0.3, -0.2));
    const { cells } = congruentCells(die, copy, sizeMm);
    expect(bandInCells(die, copy, cells, sizeMm, 0.5)).toBeGreaterThan(0.98);
    const still = cells.map((cell) => ({ ...cell, dx: 0, dy: 0 }));
    expect(bandInCells(die, copy, still, sizeMm, 0.5)).toBeLessThan(0.95);
    expect(bandInCells(die, copy, [], sizeMm, 0.5)).toBeNaN();
  });
});
