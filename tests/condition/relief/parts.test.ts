import { describe, expect, it } from 'vitest';
import { heightOverGround } from '../../../src/core/condition/relief/ground.ts';
import { slopesOf } from '../../../src/core/condition/relief/level.ts';
import { sampled } from '../../../src/core/condition/relief/parts.ts';
import { regionMeans } from '../../../src/core/condition/relief/regions.ts';
import { softened } from '../../../src/core/condition/relief/relief.ts';
import { componentsOf, emptyGrid, type HeightGrid, seededRandom } from '../../../src/core/geometry/index.ts';

const random = seededRandom(12);
const [width, height] = [23, 17];

describe('componentsOf', () => {
  it('agrees with labels that spread until nothing changes', () => {
    for (const share of [0.2, 0.35, 0.5]) {
      const cells = Uint8Array.from({ length: width * height }, () => (random.next() < share ? 1 : 0));
      const label = Int32Array.from(cells, (one, i) => (one ? i : -1));
      for (let changed = true; changed; ) {
        changed = false;
        for (let a = 0; a < label.length; a++)
          for (let b = 0; b < label.length; b++) {
            const near =
              Math.abs((a % width) - (b % width)) <= 1 && Math.abs(Math.floor(a / width) - Math.floor(b / width)) <= 1;
            if (!near || label[a] < 0 || label[b] <= label[a]) continue;
            label[b] = label[a];
            changed = true;
          }
      }
      const firsts = [...new Set(label.filter((one) => one >= 0))].sort((a, b) => a - b);
      const want = firsts.map((first) => [...label.keys()].filter((i) => label[i] === first));
      expect(componentsOf(cells, width).map((part) => [...part].sort((a, b) => a - b))).toEqual(want);
    }
  });
});

describe('sampled', () => {
  it('takes all of few, an odd stride of many, and those alone that are let in', () => {
    const values = Float32Array.from({ length: 900 }, (_, i) => i);
    expect(sampled(values, (i) => i % 2 === 1)).toEqual(values.filter((_, i) => i % 2 === 1));
    expect(sampled(values, () => true, 225)).toEqual(values.filter((_, i) => i % 5 === 0));
    expect(sampled(values, (i) => i > 500, 300)).toEqual(values.filter((_, i) => i % 3 === 0 && i > 500));
  });
});

const full = (pitch: number, at: (x: number, y: number) => number, side = 30): HeightGrid => {
  const grid = emptyGrid(-side / 2, side / 2, -side / 2, side / 2, pitch);
  grid.mask.fill(1);
  for (let i = 0; i < grid.z.length; i++)
    grid.z[i] = at(grid.left + (i % grid.width) * pitch, grid.top - Math.floor(i / grid.width) * pitch);
  return grid;
};
const placeOf = (grid: HeightGrid, i: number): [number, number] => [
  grid.left + (i % grid.width) * grid.pitch,
  grid.top - Math.floor(i / grid.width) * grid.pitch,
];

describe('slopesOf', () => {
  it('is central differences where all four neighbours have data, else nothing; x to the right and y upward', () => {
    const grid = full(0.5, (x, y) => 0.3 * x - 0.2 * y + 0.05 * x * y, 9);
    for (let i = 0; i < grid.mask.length; i++) if (random.next() < 0.1) grid.mask[i] = 0;
    const slopes = slopesOf(grid);
    let seen = 0;
    for (let i = 0; i < grid.z.length; i++) {
      const [col, row] = [i % grid.width, Math.floor(i / grid.width)];
      const within = col > 0 && row > 0 && col < grid.width - 1 && row < grid.height - 1;
      const known = within && [0, -1, 1, -grid.width, grid.width].every((step) => grid.mask[i + step]);
      const [x, y] = placeOf(grid, i);
      expect(slopes.x[i]).toBeCloseTo(known ? 0.3 + 0.05 * y : 0, 4);
      expect(slopes.y[i]).toBeCloseTo(known ? -0.2 + 0.05 * x : 0, 4);
      if (known) seen++;
    }
    expect(seen).toBeGreaterThan(100);
  });
});

describe('regionMeans', () => {
  const grid = full(0.25, () => 0);
  const inner = (i: number): boolean => Math.hypot(...placeOf(grid, i)) < 6;

  it('keeps what is the same everywhere, and what changes evenly, away from the edge', () => {
    const mean = regionMeans(grid, 8, 3, (i, out) => {
      const [x, y] = placeOf(grid, i);
      out[0] = 2;
      out[1] = 2 * (0.4 * x - 0.3 * y + 5);
      out[2] = 1;
    });
    const [share, tilted] = [mean(2), mean(1, 0)];
    grid.z.forEach((_, i) => {
      if (!inner(i)) return;
      const [x, y] = placeOf(grid, i);
      expect(share[i]).toBeCloseTo(1, 2);
      // Blocks of a millimetre are held by their middles, an eighth of one off.
      expect(Math.abs(tilted[i] - (0.4 * x - 0.3 * y + 5))).toBeLessThan(0.09);
    });
  });

  it('is a ratio of sums over what is filled in alone', () => {
    const mean = regionMeans(grid, 4, 2, (i, out) => {
      if (placeOf(grid, i)[0] > -3) return;
      out[0] = 0.7;
      out[1] = 1;
    });
    const ratio = mean(0, 1);
    expect(ratio[grid.width * 60 + 10]).toBeCloseTo(0.7, 5);
    const share = mean(1);
    // Half of the region at the edge of what is filled.
    const at = grid.width * 60 + Math.round((-3 - grid.left) / grid.pitch);
    expect(Math.abs(share[at] - 0.5)).toBeLessThan(0.16);
  });
});

describe('heightOverGround', () => {
  it('is the height of bosses on a ground that slopes and bends, whatever covers half of it', () => {
    const ground = (x: number, y: number): number => 0.03 * x - 0.02 * y + 0.0005 * x * x;
    const boss = (x: number, y: number): number => (Math.sin(1.1 * x) * Math.cos(0.9 * y) > 0.15 ? 0.6 : 0);
    const grid = full(0.25, (x, y) => ground(x, y) + boss(x, y));
    const exposure = grid.z.map((_, i) => boss(...placeOf(grid, i)) - 0.25 + 0.001 * random.normal());
    const over = heightOverGround(grid, exposure, new Uint8Array(grid.z.length).fill(1));
    let worst = 0;
    grid.z.forEach((_, i) => {
      if (Math.hypot(...placeOf(grid, i)) < 6) worst = Math.max(worst, Math.abs(over[i] - boss(...placeOf(grid, i))));
    });
    expect(worst).toBeLessThan(0.09);
  });

  it('does not take the feet of the relief for ground', () => {
    // Low cells of the relief among those of the ground: three in ten stand 0.2 mm up, and hardly over their surroundings.
    const foot = (i: number): number => ((i * 7919) % 10 < 3 ? 0.2 : 0);
    const grid = full(0.25, () => 0);
    for (let i = 0; i < grid.z.length; i++) grid.z[i] = (i % 2 ? 0.8 : foot(i)) + 0.002 * Math.sin(i);
    const exposure = grid.z.map((_, i) => (i % 2 ? 0.4 : 0));
    const low = exposure.map((value, i) => (value > 0 ? value : -0.4 + 1e-4 * (i % 50)));
    const over = heightOverGround(grid, low, new Uint8Array(grid.z.length).fill(1));
    const onGround = [...over].filter((_, i) => i % 2 === 0 && foot(i) === 0 && Math.hypot(...placeOf(grid, i)) < 10);
    expect(Math.abs(onGround.reduce((sum, value) => sum + value, 0) / onGround.length)).toBeLessThan(0.02);
  });
});

describe('softened', () => {
  it('takes pitch²/6 of the second derivative once over both directions, and leaves planes and holes alone', () => {
    const bowl = full(0.5, (x, y) => 0.5 * 0.3 * x * x + 0.5 * 0.1 * y * y + 0.2 * x, 6);
    const middle = 6 * bowl.width + 6;
    for (const times of [0, 0.5, 1, 2])
      expect(softened(bowl, times).z[middle] - bowl.z[middle]).toBeCloseTo((times * 0.25 * (0.3 + 0.1)) / 12, 5);
    const plane = full(0.5, (x, y) => x - 2 * y, 6);
    expect(softened(plane, 1).z[middle]).toBeCloseTo(plane.z[middle], 5);
    plane.mask[middle] = 0;
    expect(softened(plane, 1).z[middle]).toBe(0);
    // A neighbour without data counts as if it were as high; the second pass meets cells that lack none.
    const beside = softened(plane, 1).z[middle + 1];
    expect(beside).toBeCloseTo(plane.z[middle + 1] + (1 / 12) * 0.5 * (1 - 2 / 12), 5);
  });
});
