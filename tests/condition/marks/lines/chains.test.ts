import { describe, expect, it } from 'vitest';
import {
  type Chain,
  chainOf,
  chainsOf,
  crestCells,
  placesAlong,
} from '../../../../src/core/condition/marks/lines/chains.ts';
import { emptyGrid, type HeightGrid, seededRandom } from '../../../../src/core/geometry/index.ts';

const directions = 12;
const pitch = 0.2;
/** 24 mm by 20 mm, its centre not in the middle of the cells. */
const grid: HeightGrid = emptyGrid(-10, 14, -8, 12, pitch);
const { width, left, top } = grid;
const cellAt = (x: number, y: number): number => Math.round((top - y) / pitch) * width + Math.round((x - left) / pitch);
const deg = Math.PI / 180;

/** Cells along straight pieces, each from its middle with an angle and a length, mm. */
interface Piece {
  readonly x: number;
  readonly y: number;
  readonly deg: number;
  readonly mm: number;
}

function cellsOf({ x: nearX, y: nearY, deg: turn, mm }: Piece): number[] {
  const middle = cellAt(nearX + 1e-6, nearY);
  const [x, y] = [left + (middle % width) * pitch, top - Math.floor(middle / width) * pitch];
  const [c, s] = [Math.cos(turn * deg), Math.sin(turn * deg)];
  const steps = Math.round((mm - pitch) / pitch);
  return [
    ...new Set(
      Array.from({ length: steps + 1 }, (_, k) =>
        cellAt(x + (k - Math.floor(steps / 2)) * pitch * c, y + (k - Math.floor(steps / 2)) * pitch * s),
      ),
    ),
  ];
}

/** A field in which only the pieces stand, with the direction that is nearest to theirs. */
function field(pieces: readonly Piece[], strengthMm = 0.1) {
  const strength = new Float32Array(grid.z.length);
  const along = new Uint8Array(grid.z.length);
  for (const piece of pieces)
    for (const i of cellsOf(piece)) {
      strength[i] = strengthMm;
      along[i] = Math.round((((piece.deg % 180) + 180) % 180) / (180 / directions)) % directions;
    }
  return { strength, along };
}

function chained(pieces: readonly Piece[], sizeMm = 20): Chain[] {
  const { strength, along } = field(pieces);
  return chainsOf(grid, strength, along, directions, () => 0.05, sizeMm);
}

const row = (x: number, y: number, mm: number): Piece => ({ x, y, deg: 0, mm });

describe('chainOf', () => {
  it('has the middle, length, strength and direction of a straight row of cells', () => {
    const cells = cellsOf(row(2, 3, 6));
    const chain = chainOf(grid, [...cells].reverse(), (i) => (i - cells[0]) / 100);
    expect(chain.x).toBeCloseTo(left + Math.round((2 - left) / pitch) * pitch, 0);
    expect(chain.x).toBeCloseTo((cells.reduce((sum, i) => sum + (i % width), 0) / cells.length) * pitch + left, 9);
    expect(chain.y).toBeCloseTo(3, 5);
    expect(chain.lengthMm).toBeCloseTo(cells.length * pitch, 9);
    expect(chain.strengthMm).toBeCloseTo((cells.length - 1) / 200, 9);
    expect([chain.ux, chain.uy]).toEqual([1, 0]);
    expect(chain.strayMm).toBeCloseTo(0, 12);
    expect(chain.cells).toEqual(cells);
  });

  it('points along its greatest spread at every angle, rows running downward', () => {
    for (let turn = -85; turn <= 90; turn += 12.5) {
      const { ux, uy, strayMm, lengthMm } = chainOf(grid, cellsOf({ x: 1, y: 2, deg: turn, mm: 9 }), () => 1);
      expect(Math.abs(ux * Math.cos(turn * deg) + uy * Math.sin(turn * deg))).toBeGreaterThan(Math.cos(1.5 * deg));
      expect(strayMm).toBeLessThan(0.75 * pitch);
      expect(Math.abs(lengthMm - 9)).toBeLessThan(1.5 * pitch);
    }
  });

  it('strays by what nine tenths of its cells keep within', () => {
    const cells = [...cellsOf(row(0, 0, 8)), cellAt(0, 1), cellAt(0.6, -1)];
    expect(chainOf(grid, cells, () => 1).strayMm).toBeLessThan(0.3);
    const many = [...cells, ...[-1.4, -0.8, 0.4, 1, 1.6].flatMap((x) => [cellAt(x, 1), cellAt(x, -1)])];
    expect(Math.abs(chainOf(grid, many, () => 1).strayMm - 1)).toBeLessThan(0.15);
  });
});

describe('placesAlong', () => {
  it('is the plane’s own frame turned into the line’s: along u, aside to its left', () => {
    const cells = [cellAt(3, 4), cellAt(-2, 5)];
    const chain = { cells, x: 1, y: 2, ux: Math.cos(0.4), uy: Math.sin(0.4) } as unknown as Chain;
    placesAlong(grid, chain).forEach(([along, aside], k) => {
      const x = left + (cells[k] % width) * pitch;
      const y = top - Math.floor(cells[k] / width) * pitch;
      expect(1 + along * Math.cos(0.4) - aside * Math.sin(0.4)).toBeCloseTo(x, 9);
      expect(2 + along * Math.sin(0.4) + aside * Math.cos(0.4)).toBeCloseTo(y, 9);
    });
  });
});

describe('crestCells', () => {
  it('agrees with looking one and two cells to either side of every cell', () => {
    const random = seededRandom(4);
    const strength = Float32Array.from(grid.z, () => Math.max(0, Math.round(6 * random.next() - 1) / 10));
    const along = Uint8Array.from(grid.z, () => Math.floor(12 * random.next()));
    const least = (i: number): number => (i % 3 === 0 ? 0.3 : 0.2);
    const got = new Set(crestCells(grid, strength, along, directions, least));
    const at = (r: number, c: number): number => strength[r * width + c];
    let looked = 0;
    for (let r = 3; r < grid.height - 3; r++)
      for (let c = 3; c < width - 3; c++) {
        const i = r * width + c;
        const angle = along[i] * 15 * deg;
        // The line runs along (cos, sin) with y upward; its normal has rows growing downward with cos and columns with sin.
        const best = [1, 2].every((t) => {
          const [dr, dc] = [Math.round(Math.cos(angle) * t), Math.round(Math.sin(angle) * t)];
          return at(r, c) >= at(r + dr, c + dc) && at(r, c) > at(r - dr, c - dc);
        });
        expect(got.has(i)).toBe(best && strength[i] > 0 && strength[i] >= least(i));
        looked++;
      }
    expect(looked).toBeGreaterThan(5000);
    expect(got.size).toBeGreaterThan(300);
  });
});

describe('chainsOf', () => {
  it.each([0, 15, 45, 75, 90, 120, 165])('makes one line of one straight piece at %s°, where it lies', (turn) => {
    const [chain, ...rest] = chained([{ x: 1, y: 2, deg: turn, mm: 8 }]);
    expect(rest).toEqual([]);
    expect(Math.hypot(chain.x - 1, chain.y - 2)).toBeLessThan(0.15);
    expect(Math.abs(chain.lengthMm - 8)).toBeLessThan(0.4);
    expect(chain.strengthMm).toBeCloseTo(0.1, 6);
  });

  it('leaves out cells below the least strength and lines of fewer than three cells', () => {
    expect(chained([row(0, 0, 0.4)])).toEqual([]);
    expect(chained([row(0, 0, 0.6)])).toHaveLength(1);
    const { strength, along } = field([row(0, 0, 6)], 0.049);
    expect(chainsOf(grid, strength, along, directions, () => 0.05, 20)).toEqual([]);
  });

  /** Two rows on one line with a gap between the facing ends, mm. */
  const gapped = (a: number, b: number, gap: number): Piece[] => [
    row(-gap / 2 - a / 2, 1, a),
    row(gap / 2 + b / 2, 1, b),
  ];

  it('links cells over 1.2 mm, whatever the lines’ lengths, and not over more', () => {
    // Too short to be joined as lines: 0.6 mm against a millimetre.
    expect(chained(gapped(0.6, 0.6, 1))).toHaveLength(1);
    expect(chained(gapped(0.6, 0.6, 1.4))).toHaveLength(2);
  });

  it('joins lines that aim at one another over a gap of no more than the longer, two millimetres, and a quarter of the face', () => {
    expect(chained(gapped(3.6, 3.6, 3.2))).toHaveLength(1);
    expect(chained(gapped(3.6, 3.6, 4.2))).toHaveLength(2);
    expect(chained(gapped(1.2, 1.2, 1.8))).toHaveLength(1);
    expect(chained(gapped(1.2, 1.2, 2.4))).toHaveLength(2);
    expect(chained(gapped(6, 5, 4.6))).toHaveLength(1);
    expect(chained(gapped(6, 5, 5.6))).toHaveLength(2);
    expect(chained(gapped(6, 5, 3.4), 16)).toHaveLength(1);
    expect(chained(gapped(6, 5, 4.6), 16)).toHaveLength(2);
  });

  it('joins them in whichever order they stand, and all pieces of one line', () => {
    expect(chained([...gapped(4, 2, 2), row(8.4, 1, 2)])).toHaveLength(1);
    expect(chained([row(8.4, 1, 2), ...gapped(2, 4, 2)])).toHaveLength(1);
  });

  it('does not join what is too short: a longer one of a millimetre, another of 0.6', () => {
    expect(chained(gapped(0.8, 0.8, 1.8))).toHaveLength(2);
    expect(chained(gapped(1.2, 0.6, 1.8))).toHaveLength(1);
    expect(chained(gapped(1.2, 0.4, 1.8))).toHaveLength(1);
  });

  it('does not join what lies aside by 0.9 mm, or by nine hundredths of the way', () => {
    const beside = (aside: number, gap: number, mm: number): Piece[] => [
      row(-gap / 2 - mm / 2, 1, mm),
      row(gap / 2 + mm / 2, 1 + aside, mm),
    ];
    expect(chained(beside(0.8, 2, 4))).toHaveLength(1);
    expect(chained(beside(1, 2, 4))).toHaveLength(2);
    expect(chained(beside(1, 4, 8))).toHaveLength(1);
    expect(chained(beside(1.2, 4, 8))).toHaveLength(2);
  });

  it('does not join what is turned by more than 9°, or 22.5° of a short one', () => {
    const turned = (turn: number, mm: number): Piece[] => [row(-4, 1, 6), { x: 0.6 + mm / 2, y: 1, deg: turn, mm }];
    expect(chained(turned(6, 4))).toHaveLength(1);
    expect(chained(turned(13, 4))).toHaveLength(2);
    expect(chained(turned(-13, 4))).toHaveLength(2);
  });

  it('does not link a cell that points more than 25° away, or that lies aside of the way', () => {
    expect(chained([row(0, 1, 4), row(0, 2, 4)])).toHaveLength(2);
    const { strength, along } = field([row(0, 1, 6)]);
    for (const i of cellsOf(row(1.5, 1, 3))) along[i] = 1;
    expect(chainsOf(grid, strength, along, directions, () => 0.05, 20)).toHaveLength(1);
    const crossing = chained([row(-2.2, 1, 4), { x: 2.2, y: 1, deg: 90, mm: 4 }]);
    expect(crossing).toHaveLength(2);
  });

  it('finds the same lines when the face is mirrored or upside down', () => {
    const random = seededRandom(8);
    const pieces = Array.from(
      { length: 7 },
      (): Piece => ({
        x: random.between(-6, 10),
        y: random.between(-5, 9),
        deg: 15 * Math.floor(random.between(0, 12)),
        mm: random.between(2, 6),
      }),
    );
    const lengths = (list: readonly Piece[]): number[] =>
      chained(list)
        .map(({ cells }) => cells.length)
        .sort((a, b) => a - b);
    // About the grid's own middle, (2, 2).
    const upsideDown = pieces.map((piece) => ({ ...piece, x: 4 - piece.x, y: 4 - piece.y }));
    expect(chained(pieces).length).toBeGreaterThan(3);
    expect(lengths(upsideDown).length).toBe(lengths(pieces).length);
    const total = (list: readonly Piece[]): number => lengths(list).reduce((sum, n) => sum + n, 0);
    expect(Math.abs(total(upsideDown) - total(pieces))).toBeLessThan(0.1 * total(pieces));
  });
});
