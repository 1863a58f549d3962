import { describe, expect, it } from 'vitest';
import {
  type Band,
  bandInside,
  findLegendBand,
  findLegendBands,
  movedBand,
  parallelAt,
  withEdges,
} from '../../src/core/design/index.ts';
import { ringsOffered } from '../../src/core/design/legend/findBands.ts';
import {
  gaussianFilter,
  type HeightGrid,
  removeForm,
  sampleGrid,
  seededRandom,
  withHeights,
  xOf,
  yOf,
} from '../../src/core/geometry/index.ts';
import { faceFromStrip, placeOnSeal, stripFromFace, unroll } from '../../src/core/read/index.ts';
import { engravedFace } from './engravedFace.ts';
import { gridOf } from './grids.ts';

/** Distance from each point of a closed path to the nearest of many points of another, sorted, mm. */
function distances(path: Float64Array, at: (share: number) => { x: number; y: number }): number[] {
  const points = Array.from({ length: 1500 }, (_, k) => at(k / 1500));
  const out: number[] = [];
  for (let i = 0; i < path.length; i += 16)
    out.push(Math.min(...points.map((p) => Math.hypot(p.x - path[i], p.y - path[i + 1]))));
  return out.sort((a, b) => a - b);
}

describe('findLegendBand on engraved dies of every outline', () => {
  // One of each outline, alternately as matrix and as impression; a hundred were run when this was written: docs/read.md.
  it.each([0, 1, 2, 3, 4])('die %i: middle line within 0.1 mm, letters of the right height', (seed) => {
    const { face, shape, midline, letterMm } = engravedFace(seed, {
      sense: seed % 2 ? 'intaglio' : 'relief',
      wear: 0.4,
    });
    const band = findLegendBand(face) as Band;
    expect(band).not.toBeNull();
    expect(shape === 'round' ? ['round', 'oval'] : [shape]).toContain(band.shape);
    const middle = parallelAt(band, (band.lettersOuterMm + band.lettersInnerMm) / 2);
    const off = distances(middle, (share) => midline.at(share * midline.length));
    expect(off[off.length >> 1]).toBeLessThan(0.1);
    expect(off[Math.floor(0.95 * off.length)]).toBeLessThan(0.25);
    expect((band.lettersInnerMm - band.lettersOuterMm) / letterMm).toBeGreaterThan(0.8);
    expect((band.lettersInnerMm - band.lettersOuterMm) / letterMm).toBeLessThan(1.2);
    expect(band.lines).toBe('both');
  });

  it('finds the band of an impression of which a third has broken off', () => {
    const { face, midline } = engravedFace(10, { wear: 0.2 });
    const broken = (grid: HeightGrid): HeightGrid => ({
      ...grid,
      mask: grid.mask.map((has, i) =>
        grid.left + (i % grid.width) * grid.pitch > 0.22 * grid.width * grid.pitch ? 0 : has,
      ),
    });
    const edge = 0.22 * face.detail.width * face.detail.pitch;
    const polygon = face.outline.polygon.map((value, i) => (i % 2 === 0 ? Math.min(value, edge) : value));
    const rest = { ...face, detail: broken(face.detail), outline: { ...face.outline, polygon } };
    const band = findLegendBand(rest) as Band;
    const middle = parallelAt(band, (band.lettersOuterMm + band.lettersInnerMm) / 2);
    const off = distances(middle, (share) => midline.at(share * midline.length));
    expect(off[off.length >> 1]).toBeLessThan(0.2);
  });

  it('finds both rings of a seal with two legends', () => {
    const outer = engravedFace(3, { shape: 'round', sizeMm: 70, wear: 0.2 });
    const field = 70 - 2 * (outer.bandInnerMm + 0.8);
    const inner = engravedFace(103, { shape: 'round', sizeMm: field, wear: 0.2 });
    const grid = outer.face.relief;
    const z = grid.z.map((value, i) => {
      const height = sampleGrid(inner.face.relief, xOf(grid, i % grid.width), yOf(grid, Math.floor(i / grid.width)));
      return Number.isNaN(height) ? value : height;
    });
    const detail = removeForm(withHeights(grid, z), 2).detail;
    const middles = findLegendBands({ ...outer.face, detail }).map((band) => {
      const ring = parallelAt(band, (band.lettersOuterMm + band.lettersInnerMm) / 2);
      return Math.hypot(ring[0] - band.cx, ring[1] - band.cy);
    });
    expect(middles.length).toBe(2);
    expect(middles[0]).toBeCloseTo(35 - (outer.bandOuterMm + outer.bandInnerMm) / 2, 0);
    expect(middles[1]).toBeCloseTo(field / 2 - (inner.bandOuterMm + inner.bandInnerMm) / 2, 0);
  });

  it('finds none where there is none', () => {
    const random = seededRandom(12);
    const bare = gridOf(
      30,
      30,
      0.2,
      () => 0.01 * random.normal(),
      (x, y) => Math.hypot(x, y) < 14,
    );
    const polygon = Float64Array.from({ length: 360 }, (_, k) => {
      const t = (Math.PI * (k >> 1)) / 90;
      return 14 * (k % 2 === 0 ? Math.cos(t) : Math.sin(t));
    });
    expect(findLegendBands({ sense: 'relief', outline: { shape: 'round', polygon }, detail: bare })).toEqual([]);
  });
});

describe('rings of noise', () => {
  // Of sixty such discs the surest ring was told with a confidence of 0.13.
  it.each([0, 0.8, 3])('smoothed over waves of %d mm are never sure', (waveMm) => {
    const random = seededRandom(20);
    const disc = (x: number, y: number): boolean => Math.hypot(x, y) < 14;
    const noise = gridOf(30, 30, 0.15, () => 0.01 * random.normal(), disc);
    const detail = waveMm > 0 ? gaussianFilter(noise, waveMm) : noise;
    const polygon = Float64Array.from({ length: 360 }, (_, k) => {
      const t = (Math.PI * (k >> 1)) / 90;
      return 14 * (k % 2 === 0 ? Math.cos(t) : Math.sin(t));
    });
    const rings = ringsOffered({ sense: 'relief', outline: { shape: 'round', polygon }, detail });
    for (const { band } of rings) expect(band.confidence).toBeLessThan(0.2);
  });
});

/** A seal 20 mm across whose ring of small bumps, one every 15°, stands at radius 8 mm. */
const bumpRadius = 8;
function bumps(sense: 'intaglio' | 'relief'): { relief: HeightGrid; band: Band } {
  const sign = sense === 'intaglio' ? -1 : 1;
  const relief = gridOf(22, 22, 0.05, (x, y) => {
    const t = Math.round(Math.atan2(y, x) / (Math.PI / 12)) * (Math.PI / 12);
    const d = Math.hypot(x - bumpRadius * Math.cos(t), y - bumpRadius * Math.sin(t));
    return sign * 0.3 * Math.exp(-((d / 0.3) ** 2));
  });
  const polygon = Float64Array.from({ length: 720 }, (_, k) => {
    const t = (Math.PI * (k >> 1)) / 180;
    return 10 * (k % 2 === 0 ? Math.cos(t) : Math.sin(t));
  });
  return { relief, band: bandInside({ sense }, polygon, 0.5, 3.5) };
}

describe('unroll', () => {
  for (const sense of ['relief', 'intaglio'] as const)
    it(`lays bumps at known angles at their arc lengths, raised on the strip (${sense})`, () => {
      const { relief, band } = bumps(sense);
      const strip = unroll(relief, band, { pitchMm: 0.05 });
      expect(strip.roundMm).toBeCloseTo(2 * Math.PI * bumpRadius, 1);
      for (let k = 0; k < 24; k++) {
        const column = ((k * strip.roundMm) / 24 / strip.grid.pitch) % strip.grid.width;
        const row = strip.grid.top / strip.grid.pitch;
        expect(strip.grid.z[Math.round(row) * strip.grid.width + Math.round(column)]).toBeGreaterThan(0.25);
        expect((placeOnSeal(strip, column).deg - k * 15 + 540) % 360).toBeCloseTo(180, 0);
        expect(placeOnSeal(strip, column).radiusMm).toBeCloseTo(bumpRadius, 1);
      }
    });

  it('strip → face → strip comes back, in every facing and from every start', () => {
    const { relief, band } = bumps('intaglio');
    for (const facing of ['inward', 'outward'] as const)
      for (const startDeg of [0, 77, 200]) {
        const strip = unroll(relief, band, { pitchMm: 0.05, facing, startDeg });
        for (const [column, row] of [
          [20, 10],
          [400.5, 31.25],
          [900, 60],
        ]) {
          const [x, y] = faceFromStrip(strip, column, row);
          const back = stripFromFace(strip, x, y);
          expect(back?.column).toBeCloseTo(column, 0);
          expect(back?.row).toBeCloseTo(row, 0);
        }
        expect(stripFromFace(strip, 0, 0)).toBeNull();
      }
  });

  it('never mirrors: right along the strip, up the letters and out of the surface are right-handed', () => {
    const { relief, band } = bumps('relief');
    for (const facing of ['inward', 'outward'] as const) {
      const strip = unroll(relief, band, { pitchMm: 0.1, facing });
      const [x0, y0] = faceFromStrip(strip, 50, 10);
      const [x1, y1] = faceFromStrip(strip, 52, 10);
      const [x2, y2] = faceFromStrip(strip, 50, 8);
      expect((x1 - x0) * (y2 - y0) - (y1 - y0) * (x2 - x0)).toBeGreaterThan(0);
    }
  });

  it('begins where it is told and breaks off where it is told', () => {
    const { relief, band } = bumps('relief');
    const strip = unroll(relief, band, { pitchMm: 0.05, startDeg: 90, lengthMm: 12 });
    expect(strip.grid.width * strip.grid.pitch).toBeCloseTo(12, 1);
    expect(placeOnSeal(strip, 0).deg).toBeCloseTo(90, 0);
    expect(placeOnSeal(strip, 0).hour).toBeCloseTo(3, 1);
  });

  it('letters of an engraved die lie on the middle of the strip, in reading order', () => {
    const { face, letters } = engravedFace(6, { sense: 'intaglio' });
    const band = findLegendBand(face) as Band;
    const strip = unroll(face.relief, band, {});
    const across = letters.map(({ x, y }) => {
      const place = stripFromFace(strip, -x, y);
      return place ? Math.abs(place.row - strip.grid.top / strip.grid.pitch) * strip.grid.pitch : Number.NaN;
    });
    const sorted = across.filter((value) => !Number.isNaN(value)).sort((a, b) => a - b);
    // Engraved letters themselves stand up to a fortieth of their height off the line.
    expect(sorted[sorted.length >> 1]).toBeLessThan(0.12);
  });
});

describe('bands changed by hand or carried over', () => {
  const { band } = bumps('relief');

  it('withEdges moves the letters along and refuses what is no band', () => {
    const moved = withEdges(band, 1, 3);
    expect([moved.lettersOuterMm, moved.lettersInnerMm]).toEqual([1.25, 2.75]);
    expect(() => withEdges(band, 2, 2.1)).toThrow(RangeError);
  });

  it('movedBand by a turn and a size gives the strip of the moved seal', () => {
    const moved = movedBand(band, 'relief', (x, y) => [2 * y + 3, -2 * x - 1], 2);
    const ring = parallelAt(moved, (moved.lettersOuterMm + moved.lettersInnerMm) / 2);
    for (let i = 0; i < ring.length; i += 40)
      expect(Math.hypot(ring[i] - 3, ring[i + 1] + 1)).toBeCloseTo(2 * bumpRadius, 1);
  });
});
