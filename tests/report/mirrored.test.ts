import { decode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import { rasteriser } from '../../src/cli/rasterise.ts';
import { type Drawing, toPng } from '../../src/core/report/drawing/index.ts';
import { makeFigures } from '../../src/core/report/index.ts';
import { comparisonFixture, sectionFixture } from './fixture.ts';

const across = 360;

/** Darkness by pixel, 0 paper to 1 black; row 0 at the top. */
interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly dark: Float64Array;
}

/**
 * The drawing painted another way than by SVG: pictures dot for dot, then areas filled and every stroke as a row
 * of dots. Words are left out; what is left is enough to tell a figure from its mirror image.
 */
function roughly({ width, height, marks }: Drawing): Sheet {
  const times = across / width;
  const sheet = { width: across, height: Math.round(height * times), dark: new Float64Array(0) };
  const dark = new Float64Array(sheet.width * sheet.height);
  const put = (x: number, y: number, value: number): void => {
    const [col, row] = [Math.floor(x * times), Math.floor(y * times)];
    if (col >= 0 && row >= 0 && col < sheet.width && row < sheet.height) dark[row * sheet.width + col] = value;
  };
  for (const mark of marks) {
    if (mark.kind === 'picture') {
      const { picture } = mark;
      const colours = picture.channels - 1;
      for (let row = 0, i = 0; row < picture.height; row++)
        for (let col = 0; col < picture.width; col++, i += picture.channels) {
          const light = picture.data.subarray(i, i + colours).reduce((sum, v) => sum + v, 0) / (255 * colours);
          const x = mark.x + ((col + 0.5) / picture.width) * mark.width;
          const y = mark.y + ((row + 0.5) / picture.height) * mark.height;
          if (picture.data[i + colours] > 127) put(x, y, 1 - light);
        }
    } else if (mark.kind === 'area') {
      const strength = mark.opacity ?? 1;
      for (let row = 0; row < sheet.height; row++)
        for (let col = 0; col < sheet.width; col++)
          if (isInside(mark.points, (col + 0.5) / times, (row + 0.5) / times))
            put((col + 0.5) / times, (row + 0.5) / times, mark.tone === 'paper' ? 0 : 0.6 * strength);
    } else if (mark.kind === 'line') {
      const { points } = mark;
      for (let i = 2; i < points.length; i += 2)
        for (
          let t = 0;
          t <= 1;
          t += 0.5 / Math.max(1, times * Math.hypot(points[i] - points[i - 2], points[i + 1] - points[i - 1]))
        )
          put(
            points[i - 2] + t * (points[i] - points[i - 2]),
            points[i - 1] + t * (points[i + 1] - points[i - 1]),
            0.7,
          );
    }
  }
  return { ...sheet, dark };
}

/** Even-odd: whether a ray to the right crosses the closed outline of x, y pairs an odd number of times. */
function isInside(points: ArrayLike<number>, x: number, y: number): boolean {
  let inside = false;
  for (let i = 0, j = points.length - 2; i < points.length; j = i, i += 2)
    if (points[i + 1] > y !== points[j + 1] > y)
      if (x < points[i] + ((y - points[i + 1]) / (points[j + 1] - points[i + 1])) * (points[j] - points[i]))
        inside = !inside;
  return inside;
}

function painted(png: Uint8Array): Sheet {
  const { width, height, data, channels } = decode(png);
  const dark = Float64Array.from({ length: width * height }, (_, i) => 1 - data[channels * i + 1] / 255);
  return { width, height, dark };
}

/** What is not the same at the mirrored place: a picture's mirror image has the same with the other sign. */
const lopsided = ({ width, height, dark }: Sheet): Sheet => ({
  width,
  height,
  dark: dark.map((value, i) => value - dark[i - (i % width) + width - 1 - (i % width)]),
});

/** Means over three by three pixels, so that half a pixel of difference does not count. */
function blurred({ width, height, dark }: Sheet): number[] {
  const at = (col: number, row: number): number => dark[Math.min(height - 1, row) * width + Math.min(width - 1, col)];
  const out: number[] = [];
  for (let row = 0; row < height - 2; row++)
    for (let col = 0; col < width; col++) {
      let sum = 0;
      for (const r of [0, 1, 2]) for (const c of [0, 1, 2]) sum += at(col + c, row + r);
      out.push(sum / 9);
    }
  return out;
}

function correlation(a: readonly number[], b: readonly number[]): number {
  const n = Math.min(a.length, b.length);
  const mean = (values: readonly number[]): number => values.slice(0, n).reduce((sum, v) => sum + v, 0) / n;
  const [ma, mb] = [mean(a), mean(b)];
  let [ab, aa, bb] = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    ab += (a[i] - ma) * (b[i] - mb);
    aa += (a[i] - ma) ** 2;
    bb += (b[i] - mb) ** 2;
  }
  return ab / Math.sqrt(aa * bb);
}

const rasterise = await rasteriser();

describe('every figure’s PNG', () => {
  const figures = makeFigures(comparisonFixture({ pitch: 0.15 }), sectionFixture(), 200);

  it.each(figures.map(({ id, drawing }) => [id, drawing] as const))(
    '%s is as it was drawn, and not its mirror image',
    (_, drawing) => {
      const [reference, png] = [roughly(drawing), painted(toPng(drawing, rasterise, across))];
      expect(correlation(blurred(lopsided(reference)), blurred(lopsided(png)))).toBeGreaterThan(0.5);
    },
  );
});
