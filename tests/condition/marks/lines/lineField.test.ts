import { describe, expect, it } from 'vitest';
import { lineField } from '../../../../src/core/condition/marks/lines/lineField.ts';
import { emptyGrid, type HeightGrid, seededRandom } from '../../../../src/core/geometry/index.ts';

const pitch = 0.3;
const deg = Math.PI / 180;

function noisy(seed: number, missing = 0.03): HeightGrid {
  const grid = emptyGrid(0, 12, 0, 9, pitch);
  const random = seededRandom(seed);
  for (let i = 0; i < grid.z.length; i++) {
    grid.mask[i] = random.next() < missing ? 0 : 1;
    grid.z[i] = grid.mask[i] ? random.normal() : 0;
  }
  return grid;
}

/** Another face that shows much the same, with holes of its own. */
function like(grid: HeightGrid, seed: number): HeightGrid {
  const other = noisy(seed);
  return { ...other, z: other.z.map((z, i) => 0.9 * grid.z[i] + 0.3 * z) };
}

/** The definition, cell by cell: ridge over both sides for every direction, averaged along it, the best direction kept. */
function byDefinition(grids: readonly HeightGrid[], sign: 1 | -1) {
  const { width, height } = grids[0];
  const beside = Math.max(2, 0.75 / pitch);
  const reach = Math.max(1, Math.round(1.2 / pitch));
  const best = new Float64Array(width * height);
  const along = new Float64Array(width * height);
  for (let k = 0; k < 12; k++) {
    const angle = 15 * k * deg;
    const [dc, dr] = [Math.round(Math.sin(angle) * beside), Math.round(Math.cos(angle) * beside)];
    const at = (row: number, col: number): number => {
      if (row < Math.abs(dr) || row >= height - Math.abs(dr) || col < Math.abs(dc) || col >= width - Math.abs(dc))
        return Number.NaN;
      const values = grids.map(({ z, mask }) => {
        const cells = [row * width + col, (row + dr) * width + col + dc, (row - dr) * width + col - dc];
        if (!cells.every((i) => mask[i])) return Number.NaN;
        const [own, one, two] = cells.map((i) => sign * z[i]);
        return own - Math.max(one, two);
      });
      return values.reduce(
        (least, value) => (Number.isNaN(value) || Number.isNaN(least) ? Number.NaN : Math.min(least, value)),
        Number.POSITIVE_INFINITY,
      );
    };
    const steps: [number, number][] = [];
    for (let t = -reach; t <= reach + 1e-9; t += Math.max(1, reach / 4))
      steps.push([-Math.round(Math.sin(angle) * t), Math.round(Math.cos(angle) * t)]);
    for (let row = 0; row < height; row++)
      for (let col = 0; col < width; col++) {
        if (!(at(row, col) > 0)) continue;
        const values = steps
          .filter(([r, c]) => row + r >= 0 && row + r < height && col + c >= 0 && col + c < width)
          .map(([r, c]) => at(row + r, col + c))
          .filter((value) => !Number.isNaN(value));
        const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
        if (values.length < Math.ceil(0.6 * steps.length) || !(mean > best[row * width + col] + 1e-7)) continue;
        best[row * width + col] = mean;
        along[row * width + col] = k;
      }
  }
  return { best, along };
}

describe('lineField', () => {
  it.each([
    ['one face', [noisy(1)]],
    ['one face without holes', [noisy(2, 0)]],
    ['two faces', [noisy(3), like(noisy(3), 4)]],
  ])('is its own definition, cell by cell: %s', (_, grids) => {
    const field = lineField(grids);
    for (const [sign, got, gotAlong] of [
      [1, field.ridge, field.ridgeAlong],
      [-1, field.groove, field.grooveAlong],
    ] as const) {
      const { best, along } = byDefinition(grids, sign);
      let [standing, off, turned] = [0, 0, 0];
      best.forEach((value, i) => {
        if (value > 0) standing++;
        if (Math.abs(got[i] - value) > 1e-5) off++;
        if (value > 0 && along[i] !== gotAlong[i]) turned++;
      });
      expect(standing).toBeGreaterThan(100);
      expect(off).toBe(0);
      expect(turned).toBe(0);
    }
  });

  it('leaves the grooves at nothing where ridges alone are wanted', () => {
    const grid = noisy(5);
    const [all, ridges] = [lineField([grid]), lineField([grid], true)];
    expect(ridges.ridge).toEqual(all.ridge);
    expect(ridges.groove.every((value) => value === 0)).toBe(true);
  });

  it('points along a ridge, counter-clockwise from x with y upward', () => {
    for (let k = 0; k < 12; k++) {
      const [c, s] = [Math.cos(15 * k * deg), Math.sin(15 * k * deg)];
      const grid = emptyGrid(-6, 6, -6, 6, 0.2);
      grid.mask.fill(1);
      for (let i = 0; i < grid.z.length; i++) {
        const [x, y] = [grid.left + (i % grid.width) * 0.2, grid.top - Math.floor(i / grid.width) * 0.2];
        grid.z[i] = Math.max(0, 0.3 - Math.abs(y * c - x * s));
      }
      const middle = 30 * grid.width + 30;
      const { ridge, ridgeAlong } = lineField([grid]);
      expect(ridgeAlong[middle]).toBe(k);
      expect(ridge[middle]).toBeGreaterThan(0.15);
    }
  });
});
