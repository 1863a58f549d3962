import { describe, expect, it } from 'vitest';
import { bandInside } from '../../src/core/design/index.ts';
import { light, type Strip, unroll } from '../../src/core/read/index.ts';
import { hourColumns, stripPlate } from '../../src/core/report/index.ts';
import { gridOf } from '../read/grids.ts';

/** A round band of known size: middle line of 10 mm radius, letters 3 mm high. */
const ring = Float64Array.from({ length: 720 }, (_, i) => {
  const t = (-Math.PI * (i - (i % 2))) / 360;
  return 12 * (i % 2 === 0 ? Math.cos(t) : Math.sin(t));
});
const band = bandInside({ sense: 'relief' }, ring, 0, 4);
const relief = gridOf(14, 14, 0.1, (x, y) => 0.2 * Math.sin(3 * x) * Math.cos(2 * y));
const stripAt = (letterDots: number, more = {}): Strip => unroll(relief, band, { pitchMm: 3 / letterDots, ...more });
const plateOf = (strip: Strip, dpi: number) =>
  stripPlate([{ name: 'A', strip, picture: light(strip.grid, [{ azimuthDeg: 315, heightDeg: 35 }]), hours: true }], {
    dpi,
    caption: 'Words.',
  });

describe('a plate of strips', () => {
  // Law: a full round of the middle line is 2π r, and rows stand a dot apart.
  it('keeps the geometry of the band within 0.1 mm along and across', () => {
    for (const dots of [60, 120, 240]) {
      const { grid, roundMm } = stripAt(dots);
      expect(Math.abs(grid.width * grid.pitch - 2 * Math.PI * 10)).toBeLessThan(0.1);
      expect(Math.abs(roundMm - 2 * Math.PI * 10)).toBeLessThan(0.1);
      expect(Math.abs((grid.height - 1) * grid.pitch - (4 + 0.8))).toBeLessThan(0.1);
    }
  });

  it('draws letters as high as was asked, within a dot', () => {
    for (const dots of [60, 120, 240]) {
      const { pitch } = stripAt(dots).grid;
      expect(Math.abs(3 / pitch - dots)).toBeLessThan(1);
    }
  });

  it('has a bar within one dot of its length', () => {
    for (const dpi of [150, 300, 600]) {
      const strip = stripAt(90);
      const { drawing } = plateOf(strip, dpi);
      const bar = drawing.marks.find((mark) => mark.kind === 'line' && mark.points.length === 8);
      const label = drawing.marks.find((mark) => mark.kind === 'text' && / mm$/.test(mark.text));
      if (bar?.kind !== 'line' || label?.kind !== 'text') throw new Error('no bar');
      const dots = ((bar.points[4] - bar.points[2]) * dpi) / 72;
      expect(Math.abs(dots - Number.parseFloat(label.text) / strip.grid.pitch)).toBeLessThan(1);
    }
  });

  it('marks every clock hour once, at its own direction', () => {
    for (const more of [{}, { startDeg: 47 }, { facing: 'outward' }] as const) {
      const strip = stripAt(60, more);
      const hours = hourColumns(strip);
      expect(hours.map(({ hour }) => hour).sort((p, q) => p - q)).toEqual(
        Array.from({ length: 12 }, (_, k) => k + 1).filter((hour) => hours.some((each) => each.hour === hour)),
      );
      expect(hours.length).toBeGreaterThanOrEqual(11);
      for (const { column, hour } of hours) {
        const deg = ((Math.atan2(strip.x[column], strip.y[column]) * 180) / Math.PI + 360) % 360;
        const off = ((deg - hour * 30 + 540) % 360) - 180;
        expect(Math.abs(off)).toBeLessThan(0.5);
      }
    }
  });

  it('marks hours against the clock where an arc runs that way', () => {
    const arcs = [
      { fromDeg: 250, toDeg: 110, facing: 'inward' },
      { fromDeg: 110, toDeg: 250, facing: 'outward' },
    ] as const;
    const strip = stripAt(60, { arcs, startDeg: 250 });
    const hours = hourColumns(strip).map(({ hour }) => hour);
    expect(hours).toEqual([9, 10, 11, 12, 1, 2, 3, 8, 7, 6, 5, 4]);
  });
});
