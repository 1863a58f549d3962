import { describe, expect, it } from 'vitest';
import { imageOf } from '../../src/core/face/image.ts';
import { objectOnTable } from '../../src/core/face/table.ts';
import { type HeightGrid, seededRandom, xOf, yOf } from '../../src/core/geometry/index.ts';
import { gridOf as squareGrid } from './grids.ts';

// Referee: reliefs whose parts are known because they are put together here, 20 mm across, pitch 0.2 mm.
const pitch = 0.2;

/** A motif and a legend of strokes half a millimetre wide and 0.2 mm from valley to top, with bare field between. */
function strokes(x: number, y: number): number {
  const r = Math.hypot(x, y);
  return r < 3 || (r > 5.5 && r < 7.5) ? 0.1 * Math.sign(Math.sin(7 * x + Math.sin(2.3 * y)) * Math.sin(5 * y)) : 0;
}

const gridOf = (half: number, heightAt: (x: number, y: number) => number): HeightGrid =>
  squareGrid(half, pitch, heightAt);

const shareOf = (grid: HeightGrid, region: Uint8Array, inside: (r: number) => boolean): number => {
  let [all, kept] = [0, 0];
  for (let i = 0; i < region.length; i++) {
    if (!grid.mask[i] || !inside(Math.hypot(xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width)))))
      continue;
    all++;
    kept += region[i];
  }
  return kept / all;
};

describe('an object on a table', () => {
  const random = seededRandom(3);
  const table = (): number => 0.01 * random.normal();

  it('is found as what stands over it with relief, and nothing of the table', () => {
    const scan = gridOf(18, (x, y) => (Math.hypot(x, y) < 10 ? 2 + strokes(x, y) : table()));
    const found = objectOnTable(scan);
    expect(found).not.toBeNull();
    if (!found) return;
    expect(shareOf(scan, found.object, (r) => r < 9.5)).toBeGreaterThan(0.99);
    expect(shareOf(scan, found.object, (r) => r > 10.5)).toBeLessThan(0.01);
  });

  it('is found where the table is tilted and the object a fragment', () => {
    const scan = gridOf(18, (x, y) => 0.05 * x + (Math.hypot(x, y) < 10 && x + y > 3 ? 2 + strokes(x, y) : table()));
    expect(objectOnTable(scan)).not.toBeNull();
  });

  it('is found where the table is more than a third as rough as the object, if that stands high and nothing else stands beside it', () => {
    const cloth = (x: number, y: number): number => 0.03 * Math.sign(Math.sin(7 * x) * Math.sin(5 * y));
    const onCloth = (high: number) =>
      gridOf(18, (x, y) => (Math.hypot(x, y) < 8 && x + y > 2 ? high + strokes(x, y) : cloth(x, y)));
    expect(objectOnTable(onCloth(4))).not.toBeNull();
    expect(objectOnTable(onCloth(0.8))).toBeNull();
  });

  it('is none where a face is scanned alone, with a motif, a border, a sunk field, nothing on it or a high lip round it', () => {
    const disc = (height: (x: number, y: number, r: number) => number) =>
      gridOf(11, (x, y) => (Math.hypot(x, y) < 10 ? height(x, y, Math.hypot(x, y)) : Number.NaN));
    expect(objectOnTable(disc((x, y) => strokes(x, y)))).toBeNull();
    expect(objectOnTable(disc((x, y, r) => (r < 4 ? (1 - r / 4) * 1.5 + strokes(x, y) / 2 : table())))).toBeNull();
    expect(objectOnTable(disc((_x, _y, r) => (r > 8 && r < 9 ? 0.5 : table())))).toBeNull();
    expect(objectOnTable(disc((x, y, r) => (r < 7 ? -1 + strokes(x, y) : table())))).toBeNull();
    expect(objectOnTable(disc(() => table()))).toBeNull();
    const lip = (x: number, y: number): number => 3 + 0.1 * Math.sin(13 * x) * Math.sin(11 * y);
    expect(objectOnTable(disc((x, y, r) => (r > 8.5 ? lip(x, y) : table())))).toBeNull();
  });
});

describe('the image of a face', () => {
  const kept = (relief: HeightGrid) => imageOf(relief, 20, true).image.mask;

  it('ends where the bevel of a metal body begins', () => {
    const relief = gridOf(11, (x, y) => {
      const r = Math.hypot(x, y);
      return r > 10 ? Number.NaN : r > 8.5 ? -1.2 * (r - 8.5) : strokes(x, y);
    });
    expect(shareOf(relief, kept(relief), (r) => r < 7.8)).toBeGreaterThan(0.99);
    expect(shareOf(relief, kept(relief), (r) => r > 9)).toBeLessThan(0.05);
  });

  it('ends where a lip of wax begins, flat on top, with holes in the scan or without; and takes the form of what is inside', () => {
    const random = seededRandom(5);
    for (const holes of [0, 60]) {
      const spots = Array.from({ length: holes }, () => [random.between(-9, 9), random.between(-9, 9)]);
      const relief = gridOf(13, (x, y) => {
        const r = Math.hypot(x, y);
        if (r > 11 || spots.some(([a, b]) => Math.hypot(x - a, y - b) < 0.3)) return Number.NaN;
        return strokes(x, y) + 1.6 * Math.min(1, Math.max(0, (r - 8.8) / 0.8));
      });
      const { mask, z } = imageOf(relief, 22, true).image;
      expect(
        shareOf(relief, mask, (r) => r < 8),
        `${holes} holes`,
      ).toBeGreaterThan(0.98);
      expect(
        shareOf(relief, mask, (r) => r > 9.6),
        `${holes} holes`,
      ).toBeLessThan(0.05);
      const field = z.filter((_, i) => {
        const r = Math.hypot(xOf(relief, i % relief.width), yOf(relief, Math.floor(i / relief.width)));
        return mask[i] === 1 && r > 3.5 && r < 5;
      });
      expect(Math.max(...field.map(Math.abs)), `${holes} holes`).toBeLessThan(0.05);
    }
  });

  it('keeps a legend near its edge beside an even field', () => {
    const relief = gridOf(11, (x, y) => {
      const r = Math.hypot(x, y);
      const letter = Math.sin(7 * x + Math.sin(2.3 * y)) * Math.sin(5 * y) > 0;
      return r > 10 ? Number.NaN : r > 7.6 && r < 9.2 && letter ? 0.3 : 0;
    });
    expect(shareOf(relief, kept(relief), (r) => r < 8.8)).toBeGreaterThan(0.98);
  });

  it('is the whole face where it has no edge but that of the data', () => {
    const relief = gridOf(11, (x, y) => (Math.hypot(x, y) > 10 ? Number.NaN : strokes(x, y)));
    expect(shareOf(relief, kept(relief), (r) => r < 9)).toBeGreaterThan(0.97);
  });

  it('keeps a cut in the middle of the field, however deep', () => {
    const relief = gridOf(11, (x, y) =>
      Math.hypot(x, y) > 10 ? Number.NaN : strokes(x, y) - (Math.abs(y) < 0.5 && Math.abs(x) < 5 ? 3 : 0),
    );
    expect(shareOf(relief, kept(relief), (r) => r < 6)).toBe(1);
  });

  it('does not hang on a tilt of the relief', () => {
    const tilted = gridOf(11, (x, y) => (Math.hypot(x, y) > 10 ? Number.NaN : strokes(x, y) + 0.3 * x));
    expect(shareOf(tilted, kept(tilted), (r) => r < 9)).toBeGreaterThan(0.97);
  });
});
