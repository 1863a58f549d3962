import { describe, expect, it } from 'vitest';
import { type HeightGrid, seededRandom } from '../../src/core/geometry/index.ts';
import { ridgePicture, ridgeSpacingMm, ridgeView } from '../../src/core/read/index.ts';
import { gridOf } from './grids.ts';

/** Wax 14 mm across with noise; ridges of the given period, in curves, over one half. */
function back(periodMm: number, amplitudeMm: number, pitch = 0.06): HeightGrid {
  const random = seededRandom(21);
  return gridOf(14, 14, pitch, (x, y) => {
    const ridge = amplitudeMm * Math.cos((2 * Math.PI * Math.hypot(x + 6, y + 9)) / periodMm);
    return 0.02 * x * x + 0.004 * random.normal() + (x > 0 ? ridge : 0);
  });
}

describe('ridgeView', () => {
  it('proposes finger marks where ridges of half a millimetre run side by side, and where they are', () => {
    const grid = back(0.5, 0.02);
    const view = ridgeView(grid, 0.004);
    expect(view.proposal).toBe('present');
    let left = 0;
    let right = 0;
    view.likely.forEach((value, i) => {
      if (grid.left + (i % grid.width) * grid.pitch > 0) right += value;
      else left += value;
    });
    expect(right).toBeGreaterThan(20 * left);
    expect(ridgeSpacingMm(view)).toBeCloseTo(0.5, 1);
  });

  it('sees none in noise alone, in broad tool marks, or where the scan is too coarse', () => {
    expect(ridgeView(back(0.5, 0), 0.004).proposal).toBe('absent');
    expect(ridgeView(back(2.5, 0.02), 0.004).proposal).toBe('absent');
    expect(ridgeView(back(0.5, 0.02, 0.14), 0.004).proposal).toBe('notJudged');
  });

  // The foot of a handle and a rounded rim on a smooth back: single steps, which a band pass makes ring.
  it('sees none on a smooth back with a handle and a rim', () => {
    const random = seededRandom(5);
    const smooth = gridOf(14, 14, 0.1, (x, y) => {
      const handle = 3 / (1 + Math.exp((Math.hypot(x / 2, y) - 2) / 0.03));
      const rim = 0.8 / (1 + Math.exp((Math.hypot(x, y) - 6) / 0.03));
      return handle + rim + 0.004 * random.normal();
    });
    expect(ridgeView(smooth, 0.004).proposal).toBe('absent');
  });

  it('exports a picture in which single ridges can no longer be told apart', () => {
    const grid = back(0.5, 0.02);
    const view = ridgeView(grid, 0.004);
    const row = Math.floor(grid.height / 2) * grid.width;
    const from = Math.round(0.75 * grid.width);
    const wiggle = (grey: Uint8ClampedArray): number => {
      let sum = 0;
      for (let c = from; c < from + 40; c++) sum += Math.abs(grey[row + c + 1] - grey[row + c]);
      return sum / 40;
    };
    expect(wiggle(ridgePicture(view).grey)).toBeLessThan(0.05 * wiggle(ridgePicture(view, { sharp: true }).grey));
  });
});
