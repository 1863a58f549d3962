import { describe, expect, it } from 'vitest';
import type { PickedBand } from '../../src/core/design/legend/pickBand.ts';
import { ringMargin, ringRows } from '../../src/core/design/legend/ringPicture.ts';
import { type RingSigns, ringSignNames, ringSigns } from '../../src/core/design/legend/ringSigns.ts';
import { type HeightGrid, seededRandom } from '../../src/core/geometry/index.ts';

const band = { edges: 1, innerLine: 2, outerLine: 0.5, score: 2 } as PickedBand;
const wide = 20 * ringRows;

/** A ring twenty letters' heights long; `z` of column and row, row 0 the letters' outermost. */
function picture(z: (column: number, row: number) => number): HeightGrid {
  const height = ringRows + 2 * ringMargin;
  const heights = Float32Array.from({ length: wide * height }, (_, i) =>
    z(i % wide, Math.floor(i / wide) - ringMargin),
  );
  return { width: wide, height, pitch: 0.1, left: 0, top: 0, z: heights, mask: new Uint8Array(heights.length).fill(1) };
}
const signsOf = (grid: HeightGrid): RingSigns => ringSigns(grid, band, 0.2);
/** Upright strokes, `heights` letters' heights from one to the next, between the letters' edges. */
const strokes = (heights: number) =>
  picture((c, r) => (r < 0 || r >= ringRows ? 0 : Math.cos((2 * Math.PI * c) / (heights * ringRows))));

describe('signs of a ring', () => {
  const random = seededRandom(5);
  const any = picture(() => random.normal());

  it('do not change with height, nor with where the ring begins', () => {
    const higher = { ...any, z: any.z.map((value) => 7 * value) };
    const turned = { ...any, z: any.z.map((_, i) => any.z[i - (i % wide) + ((i + 33) % wide)]) };
    for (const name of ringSignNames) {
      expect(signsOf(higher)[name]).toBeCloseTo(signsOf(any)[name], 5);
      if (name !== 'even') expect(signsOf(turned)[name]).toBeCloseTo(signsOf(any)[name], 5);
    }
  });

  it('upright strokes run through all rows, lie along the ring and end at its edges', () => {
    const signs = signsOf(strokes(0.5));
    expect(signs.upright).toBeCloseTo(1, 5);
    expect(signs.along).toBeCloseTo(1, 1);
    expect([signs.overOuterEdge, signs.overInnerEdge]).toEqual([0, 0]);
    expect(signs.even).toBeGreaterThan(0.9);
  });

  it('a border line lies across and runs all round', () => {
    const signs = signsOf(picture((_, r) => Math.exp(-(((r - 5) / 2) ** 2))));
    expect(signs.along).toBeCloseTo(0, 5);
    expect(signs.longWaves + signs.broadWaves).toBeLessThan(1e-6);
  });

  it('waves are told by their length in letters’ heights', () => {
    expect(signsOf(strokes(4)).longWaves).toBeCloseTo(1, 2);
    expect(signsOf(strokes(20 / 14)).broadWaves).toBeCloseTo(1, 2);
    const fine = signsOf(strokes(0.5));
    expect(fine.longWaves + fine.broadWaves).toBeLessThan(0.01);
  });

  it('what runs on beyond the edge is no gap, and letters on half of the ring are not everywhere', () => {
    const over = signsOf(picture((c) => Math.cos((2 * Math.PI * c) / 20)));
    expect(over.overOuterEdge).toBeCloseTo(1, 5);
    expect(over.overInnerEdge).toBeCloseTo(1, 5);
    const half = strokes(0.5);
    const signs = signsOf({ ...half, z: half.z.map((value, i) => (i % wide < wide / 2 ? value : 0)) });
    expect(signs.even).toBe(0);
  });
});
