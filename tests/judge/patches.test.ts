import { describe, expect, it } from 'vitest';
import { type HeightGrid, sampleCells, seededRandom, withHeights } from '../../src/core/geometry/index.ts';
import { registerPatch } from '../../src/core/judge/patches.ts';

/** Smooth relief as a sum of waves, shifted by (dx, dy) cells, x right and y down. */
function relief(seed: number, dx = 0, dy = 0, change: (col: number, row: number) => number = () => 0): HeightGrid {
  const random = seededRandom(seed);
  const waves = Array.from({ length: 24 }, () => [
    random.between(-0.6, 0.6),
    random.between(-0.6, 0.6),
    random.between(0, 6.3),
  ]);
  const size = 80;
  const z = Float32Array.from({ length: size * size }, (_, i) => {
    const [col, row] = [i % size, Math.floor(i / size)];
    return waves.reduce(
      (sum, [u, v, p]) => sum + 0.01 * Math.sin(u * (col - dx) + v * (row - dy) + p),
      change(col, row),
    );
  });
  return { width: size, height: size, pitch: 0.1, left: 0, top: 7.9, z, mask: new Uint8Array(size * size).fill(1) };
}
/** The same relief turned by so many degrees about its middle. */
function turned(seed: number, deg: number): HeightGrid {
  const grid = relief(seed);
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  const z = grid.z.map((_, i) => {
    const [x, y] = [(i % 80) - 40, Math.floor(i / 80) - 39];
    return sampleCells(grid, 40 + c * x - s * y, 39 + s * x + c * y) || 0;
  });
  return withHeights(grid, z);
}
const options = { radius: 9, reach: 5, noiseCells: 1, clipMm: [0.12, 0.12] as const };

describe('a patch registered alone', () => {
  it('finds a known shift of a fraction of a cell, in either direction of both axes', () => {
    for (const [dx, dy] of [
      [1.3, -2.4],
      [-3.2, 0.7],
      [0, 0],
    ]) {
      const patch = registerPatch(relief(1), relief(1, dx, dy), 4, 4, options);
      expect(patch?.dx).toBeCloseTo(0.1 * dx, 2);
      expect(patch?.dy).toBeCloseTo(-0.1 * dy, 2);
      expect(patch?.correlation).toBeGreaterThan(0.99);
    }
  });
  it('is moved by less than half a cell by a cut across it, twelve times as deep as its relief: cells that disagree lose their weight', () => {
    const cut = (col: number, row: number) => (Math.abs(col - row - 3) < 2 ? -0.4 : 0);
    const patch = registerPatch(relief(2), relief(2, 1.5, -0.5, cut), 4, 4, options);
    expect(patch?.dx).toBeCloseTo(0.15, 1);
    expect(patch?.dy).toBeCloseTo(0.05, 1);
    expect(patch?.correlation).toBeGreaterThan(0.95);
    expect(patch?.kept).toBeLessThan(0.95);
  });
  it('turns as far as the relief does, and not at all where turns are held', () => {
    const free = registerPatch(relief(5), turned(5, 6), 4, 4, options);
    const held = registerPatch(relief(5), turned(5, 6), 4, 4, { ...options, turnSdDeg: 0.01 });
    expect(free?.turnDeg).toBeCloseTo(6, 0);
    expect(held?.turnDeg).toBeCloseTo(0, 1);
  });
  it('errs less in noise where its relief lies to one side and turns are held, and says so', () => {
    const placed = (turnSdDeg?: number) =>
      Array.from({ length: 12 }, (_, seed) => {
        const random = seededRandom(100 + seed);
        const noisy = relief(6, 0, 0, () => random.between(-0.06, 0.06));
        const patch = registerPatch(relief(6), noisy, 0.3, 4, { ...options, turnSdDeg });
        return [Math.hypot(patch?.dx ?? 9, patch?.dy ?? 9), (patch?.covariance[0] ?? 9) + (patch?.covariance[2] ?? 9)];
      }).reduce(([e, v], [error, variance]) => [e + error, v + variance]);
    const [free, held] = [placed(), placed(0.5)];
    expect(held[0]).toBeLessThan(free[0]);
    expect(held[1]).toBeLessThan(free[1]);
  });
  it('correlates less on another relief than on its own', () => {
    const other = registerPatch(relief(3), relief(4), 4, 4, options);
    expect(other?.correlation ?? 0).toBeLessThan(0.9);
  });
});
