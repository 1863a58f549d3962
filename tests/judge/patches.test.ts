import { describe, expect, it } from 'vitest';
import { type HeightGrid, seededRandom } from '../../src/core/geometry/index.ts';
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
  it('correlates less on another relief than on its own', () => {
    const other = registerPatch(relief(3), relief(4), 4, 4, options);
    expect(other?.correlation ?? 0).toBeLessThan(0.9);
  });
});
