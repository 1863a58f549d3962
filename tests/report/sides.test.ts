import { decode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import { rasteriser } from '../../src/cli/rasterise.ts';
import { type Picture, rectangle } from '../../src/core/report/drawing/drawing.ts';
import { makeReport, toPng } from '../../src/core/report/index.ts';
import { comparisonFixture, paradataFixture } from './fixture.ts';

const rasterise = await rasteriser();

/** Mean grey of the left and the right half of a drawing 80 × 40, upper and lower half apart. */
function quarters(marks: Parameters<typeof toPng>[0]['marks']): [number, number, number, number] {
  const { data, width, height } = decode(toPng({ width: 80, height: 40, title: '', marks }, rasterise, 80));
  const channels = data.length / (width * height);
  const sums: [number, number, number, number] = [0, 0, 0, 0];
  for (let i = 0; i < width * height; i++) {
    const quarter = (Math.floor(i / width) >= height / 2 ? 2 : 0) + (i % width >= width / 2 ? 1 : 0);
    sums[quarter] += data[i * channels];
  }
  return sums;
}

describe('a figure as PNG', () => {
  it('keeps left and right, above and below, of what is drawn: its mirror images fail here', () => {
    const [upperLeft, ...others] = quarters([rectangle(4, 4, 20, 10, '#000000')]);
    for (const other of others) expect(upperLeft).toBeLessThan(0.9 * other);
  });

  it('keeps them of a picture that is set in it', () => {
    const data = Uint8Array.from({ length: 64 }, (_, i) => (i % 4 === 3 ? 255 : i < 8 ? 0 : 255));
    const picture: Picture = { width: 4, height: 4, channels: 4, data };
    const [upperLeft, ...others] = quarters([{ kind: 'picture', x: 0, y: 0, width: 80, height: 40, picture }]);
    for (const other of others) expect(upperLeft).toBeLessThan(0.9 * other);
  });
});

describe('landmarks.csv', () => {
  it('has under each name the number that the record gives by that name', () => {
    const base = comparisonFixture({ pitch: 0.4 });
    const landmark = {
      ...{ x: 1, y: 2, dx: 0.03, dy: 0.04, aloneSmooth: [0.05, 0.06] as const },
      ...{ ellipse: { majorMm: 0.07, minorMm: 0.08, deg: 9 }, correlation: 0.91 },
    };
    const constellation = { landmarks: [landmark], found: 1, unseen: [], smoothMm: 0.1, outside: 0 };
    const comparison = { ...base, judgement: { ...base.judgement, constellation } };
    const csv = makeReport(comparison, paradataFixture, { withoutFigures: true }).files.get('landmarks.csv') as string;
    const [head, row] = csv
      .trim()
      .split(/\r?\n/)
      .map((line) => line.split(','));
    expect(Object.fromEntries(head.map((name, k) => [name, Number(row[k])]))).toEqual({
      ...{ x_mm: 1, y_mm: 2, dx_mm: 0.03, dy_mm: 0.04, rest_smooth_x_mm: 0.05, rest_smooth_y_mm: 0.06 },
      ...{ ellipse_major_mm: 0.07, ellipse_minor_mm: 0.08, ellipse_deg: 9, correlation: 0.91 },
    });
  });
});
