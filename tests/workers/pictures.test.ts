import { describe, expect, it } from 'vitest';
import { halfValue } from '../../src/app/saved/grids.ts';
import { emptyGrid, type HeightGrid } from '../../src/core/geometry/index.ts';
import { plateMesh } from '../../src/workers/browser/plateMesh.ts';
import { reliefPicture } from '../../src/workers/browser/reliefPicture.ts';
import { scannedRim } from '../../src/workers/browser/scannedRim.ts';
import { skyTerm } from '../../src/workers/browser/skyTerm.ts';

function disc(height: (x: number, y: number) => number, pitch = 0.1, radius = 8): HeightGrid {
  const grid = emptyGrid(-10, 10, -10, 10, pitch);
  for (let i = 0; i < grid.z.length; i++) {
    const x = grid.left + (i % grid.width) * pitch;
    const y = grid.top - Math.floor(i / grid.width) * pitch;
    if (Math.hypot(x, y) > radius) continue;
    grid.mask[i] = 1;
    grid.z[i] = height(x, y);
  }
  return grid;
}

describe('the stored normal picture', () => {
  it('holds the slopes of a plane everywhere, edges included', () => {
    const grid = disc((x, y) => 0.2 * x - 0.3 * y);
    const { cells } = reliefPicture(grid);
    let worst = 0;
    for (let i = 0; i < grid.z.length; i++) {
      const x = grid.left + (i % grid.width) * 0.1;
      const y = grid.top - Math.floor(i / grid.width) * 0.1;
      if (Math.hypot(x, y) > 7.6) continue;
      worst = Math.max(worst, Math.abs(halfValue(cells[4 * i]) + 0.2), Math.abs(halfValue(cells[4 * i + 1]) - 0.3));
    }
    // Half floats keep eleven bits.
    expect(worst).toBeLessThan(1e-3);
  });

  it('marks the edge where the data ends', () => {
    const grid = disc(() => 0);
    const { mask } = reliefPicture(grid);
    let wrong = 0;
    for (let i = 0; i < grid.z.length; i++) if (mask[2 * i + 1] >= 128 !== grid.mask[i] > 0) wrong++;
    // Only corners of the staircase are rounded off.
    expect(wrong / grid.mask.reduce((sum, one) => sum + one, 0)).toBeLessThan(0.02);
  });
});

describe('the sky term', () => {
  it('is a half on a plane, less in a hollow, more on a bump', () => {
    const flat = skyTerm(disc(() => 1));
    const pit = skyTerm(disc((x, y) => -0.4 * Math.exp(-(x * x + y * y))));
    const bump = skyTerm(disc((x, y) => 0.4 * Math.exp(-(x * x + y * y))));
    const middle = 100 * 201 + 100;
    expect(flat[middle]).toBeCloseTo(0.5, 5);
    expect(pit[middle]).toBeLessThan(0.45);
    expect(bump[middle]).toBeCloseTo(1 - pit[middle], 4);
  });
});

describe('the light surface', () => {
  it('has few triangles and stays near the relief', async () => {
    const grid = disc((x, y) => 0.3 * Math.sin(x) * Math.cos(y), 0.05);
    const mesh = await plateMesh(grid, 6000, 1500);
    expect(mesh.triangles.length / 3).toBeLessThanOrEqual(6000);
    let worst = 0;
    for (let i = 0; i < mesh.positions.length; i += 3) {
      const [x, y, z] = mesh.positions.subarray(i, i + 3);
      if (Math.hypot(x, y) < 7.5) worst = Math.max(worst, Math.abs(z - 0.3 * Math.sin(x) * Math.cos(y)));
    }
    expect(worst).toBeLessThan(0.03);
  });

  it('has still fewer for the screen, over the same area', async () => {
    const {
      positions,
      triangles,
      few = triangles,
    } = await plateMesh(
      disc((x) => 0.3 * Math.sin(x)),
      6000,
      1500,
    );
    expect(few.length / 3).toBeLessThanOrEqual(1500);
    const area = (of: Uint32Array): number => {
      let sum = 0;
      for (let i = 0; i < of.length; i += 3) {
        const [a, b, c] = [3 * of[i], 3 * of[i + 1], 3 * of[i + 2]];
        const [ux, uy] = [positions[b] - positions[a], positions[b + 1] - positions[a + 1]];
        sum += ux * (positions[c + 1] - positions[a + 1]) - uy * (positions[c] - positions[a]);
      }
      return Math.abs(sum) / 2;
    };
    expect(area(few) / area(triangles)).toBeGreaterThan(0.98);
    expect(area(few) / area(triangles)).toBeLessThan(1.02);
  });
});

describe('the edge of what is scanned', () => {
  it('runs round a disc at its radius', () => {
    const rim = scannedRim(disc(() => 0));
    expect(rim.length).toBe(360);
    for (let i = 0; i < rim.length; i += 2) expect(Math.abs(Math.hypot(rim[i], rim[i + 1]) - 8)).toBeLessThan(0.15);
  });
});
