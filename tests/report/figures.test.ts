import { decode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import { rasteriser } from '../../src/cli/rasterise.ts';
import { columnOf, rowOf, sampleGrid } from '../../src/core/geometry/index.ts';
import { along } from '../../src/core/report/figures/axes.ts';
import { differencePicture } from '../../src/core/report/figures/differencePicture.ts';
import { histogram } from '../../src/core/report/figures/distribution.ts';
import { layOn, makePlates, meanBlocks } from '../../src/core/report/figures/plates.ts';
import { barLength } from '../../src/core/report/figures/scaleBar.ts';
import { sectionFigure } from '../../src/core/report/figures/section.ts';
import { makeFigures, toPng } from '../../src/core/report/index.ts';
import { comparisonFixture, cut, design, lost, sectionFixture, shrinkage } from './fixture.ts';

const comparison = comparisonFixture({ pitch: 0.1 });
const plates = makePlates(comparison, 400);
const difference = comparison.difference as NonNullable<typeof comparison.difference>;

/** Places on the sound field and staff, where the design is smooth and the wax neither worn nor lost. */
const places: Array<[number, number]> = [
  [6.6, -5],
  [6.6, 8],
  [10.2, 2],
  [-2.6, -10],
  [2.6, -12.5],
];

describe('the plates', () => {
  it('show the matrix as its impression: the design upright, readable, raised', () => {
    for (const [x, y] of places) {
      const expected = design(x, y) + cut(x, y);
      expect(sampleGrid(plates.reference.grid, x, y)).toBeCloseTo(expected, 1);
    }
  });

  it('show the subject turned as the fit found it and at its own size', () => {
    for (const [x, y] of places) {
      const seen = sampleGrid(plates.subject.grid, shrinkage * x, shrinkage * y);
      expect(Math.abs(seen - shrinkage * design(x, y))).toBeLessThan(0.04);
    }
  });

  it('leave the subject where it lies on its own scan when no fit was found', () => {
    const apart = makePlates(comparisonFixture({ pitch: 0.25, found: false }), 200);
    const own = comparison.subject.face.detail;
    for (const [x, y] of places) expect(sampleGrid(apart.subject.grid, x, y)).toBeCloseTo(sampleGrid(own, x, y), 1);
  });

  it('do not turn over an impression that serves as reference', () => {
    const both = makePlates(comparisonFixture({ pitch: 0.25, bothPositive: true }), 200);
    for (const [x, y] of places) expect(sampleGrid(both.reference.grid, x, y)).toBeCloseTo(design(x, y) + cut(x, y), 1);
  });
});

describe('laying a relief on other cells', () => {
  const ramp = {
    ...difference.map,
    z: difference.map.z.map((_, i) => 0.01 * (i % difference.map.width)),
    mask: new Uint8Array(difference.map.z.length).fill(1),
  };
  it('keeps a slope, also through the means of blocks', () => {
    for (const k of [1, 2, 3]) {
      const coarse = meanBlocks(ramp, k);
      for (const x of [-5, 0, 7.3]) expect(sampleGrid(coarse, x, 1)).toBeCloseTo(sampleGrid(ramp, x, 1), 5);
    }
  });
  it('changes sign with the side that faces the reader, and not with a turn in the plane', () => {
    const window = { left: -5, top: 5, width: 11, height: 11, pitch: 1 };
    const c = Math.cos(0.5);
    const s = Math.sin(0.5);
    const turned = layOn(window, ramp, { scale: 1, rotation: [c, -s, 0, s, c, 0, 0, 0, 1], translation: [0, 0, 0] });
    const over = layOn(window, ramp, { scale: 1, rotation: [-1, 0, 0, 0, 1, 0, 0, 0, -1], translation: [0, 0, 0] });
    expect(sampleGrid(turned, 3 * c, 3 * s)).toBeCloseTo(sampleGrid(ramp, 3, 0), 4);
    expect(sampleGrid(over, -3, 2)).toBeCloseTo(-sampleGrid(ramp, 3, 2), 4);
  });
});

describe('the map of differences', () => {
  const endMm = 0.5;
  const picture = differencePicture(difference, plates, endMm);
  const { grid } = plates.reference;
  const at = (x: number, y: number): number[] => {
    const i = Math.round(rowOf(grid, y)) * grid.width + Math.round(columnOf(grid, x));
    return [...picture.data.slice(4 * i, 4 * i + 4)];
  };
  const spread = (colour: number[]): number => Math.max(...colour.slice(0, 3)) - Math.min(...colour.slice(0, 3));

  it('is grey on the field, where nothing can be measured', () => {
    for (const [x, y] of [
      [10.2, 2],
      [-9, 4],
      [9, 4],
    ] as const)
      expect(spread(at(x, y))).toBeLessThan(20);
  });
  it('is orange along the cut that the wax never saw and where it is rubbed', () => {
    for (const [x, y] of [
      [4.4, 0.8],
      [0, 5],
    ] as const) {
      const [r, , b] = at(x, y);
      expect(r - b).toBeGreaterThan(60);
    }
  });
  it('is hatched, in greys of two kinds, where the wax is lost', () => {
    const seen = new Set<number>();
    for (let x = -3; x <= 3; x += 0.1)
      if (lost(x, -23)) {
        const colour = at(x, -23);
        expect(spread(colour)).toBe(0);
        expect(colour[3]).toBe(255);
        seen.add(colour[0] > 170 ? 1 : 0);
      }
    expect(seen.size).toBe(2);
  });
  it('is grey everywhere when nothing stands against chance over the whole face', () => {
    const chance = { ...difference, significant: new Uint8Array(difference.map.z.length) };
    const { data } = differencePicture(chance, plates, endMm);
    let most = 0;
    for (let i = 0; i < data.length; i += 4) most = Math.max(most, Math.abs(data[i] - data[i + 2]));
    expect(most).toBeLessThan(20);
  });
  it('is clear beyond the rim', () => {
    expect(at(16, 24)[3]).toBe(0);
    expect(at(-17.5, -26)[3]).toBe(0);
  });
});

const rasterise = await rasteriser();

describe('the figures', () => {
  const figures = makeFigures(comparison, sectionFixture(), 200);
  it('are all there where a fit was found, and the faces alone where none was', () => {
    expect(figures.map(({ id }) => id)).toEqual([
      'faces',
      'difference',
      'distribution',
      'wavelengths',
      'section',
      'cells',
    ]);
    expect(makeFigures(comparisonFixture({ pitch: 0.3, found: false })).map(({ id }) => id)).toEqual(['faces']);
  });
  it('have captions in whole sentences that name lamp, scale and limits', () => {
    for (const { caption } of figures) expect(caption).toMatch(/^\S.*\.$/);
    expect(figures[0].caption).toMatch(/azimuth 315°, height 35°/);
    expect(figures[1].caption).toMatch(/level of detection at 95 %/);
    expect(figures[4].caption).toMatch(/heights drawn × \d+/);
  });
  it('become PNG files no wider than asked, with ink on them', () => {
    for (const { drawing } of figures) {
      const png = decode(toPng(drawing, rasterise, 450));
      expect(png.width).toBe(450);
      expect(new Set(png.data).size).toBeGreaterThan(30);
    }
  });
  it('say that scans are simulated where they are', () => {
    for (const { caption, drawing } of makeFigures(comparison, sectionFixture(), 100, true)) {
      expect(caption).toMatch(/^Simulated scans\./);
      expect(drawing.marks.some((mark) => mark.kind === 'text' && mark.text === 'simulated')).toBe(true);
    }
  });
  it('show a section in the impression’s sense, whichever of the two the plane belongs to', () => {
    const measured = sectionFixture();
    const over = {
      ...measured,
      reference: measured.reference.map((z) => -z),
      subject: measured.subject.map((z) => -z),
    };
    expect(sectionFigure(measured, 'intaglio').drawing).toEqual(sectionFigure(over, 'relief').drawing);
    expect(sectionFigure(measured, 'relief').drawing).not.toEqual(sectionFigure(over, 'relief').drawing);
  });
  it('leave out a section that meets no surface', () => {
    const empty = { ...sectionFixture(), subject: new Float64Array(400).fill(Number.NaN) };
    expect(makeFigures(comparison, empty, 100).map(({ id }) => id)).not.toContain('section');
  });
  it('show every negative as it is, beside its turned-over picture', () => {
    const labels = figures[0].drawing.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
    expect(labels).toContain('matrix, turned over as its impression');
    expect(labels).toContain('matrix, as it is');
  });
});

describe('what the graphs rest on', () => {
  it('a histogram that holds the whole compared face', () => {
    for (const end of [0.05, 0.5]) {
      const shares = histogram(difference, end);
      expect(shares.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
    }
  });
  it('a scale that meets its ends', () => {
    const scale = { from: 2, to: 6, start: 100, end: 20 };
    expect([along(scale, 2), along(scale, 4), along(scale, 6)]).toEqual([100, 60, 20]);
  });
  it('a scale bar between a tenth and two fifths of the picture', () => {
    for (const width of [4, 9, 18, 36, 60, 90, 150]) {
      expect(barLength(width)).toBeLessThanOrEqual(0.4 * width);
      expect(barLength(width)).toBeGreaterThan(0.1 * width);
    }
  });
});
