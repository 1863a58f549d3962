import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/core/geometry/index.ts';
import type { Picture } from '../../src/core/report/drawing/drawing.ts';
import { layPicture } from '../../src/core/report/drawing/layPicture.ts';

const random = seededRandom(41);

function drawn(width: number, height: number, channels: 2 | 4, opaque = false): Picture {
  const data = Uint8Array.from({ length: width * height * channels }, () => random.below(256));
  if (opaque) for (let i = channels - 1; i < data.length; i += channels) data[i] = 255;
  return { width, height, channels, data };
}

/** The definition, pixel by pixel: a tent one sample wide, or one pixel where samples are finer, held at the picture's edges. */
function defined(
  picture: Picture,
  x: number,
  y: number,
  width: number,
  height: number,
  under: number,
): number[] | null {
  const place = (v: number, start: number, length: number, samples: number) => {
    const step = samples / length;
    const centre = Math.min(samples - 1, Math.max(0, (v - start) * step - 0.5));
    const weights = Array.from({ length: samples }, (_, k) =>
      Math.max(0, 1 - Math.abs(centre - k) / Math.max(1, step)),
    );
    const sum = weights.reduce((a, b) => a + b);
    return weights.map((w) => w / sum);
  };
  const columns = place(x, 3.2, width, picture.width);
  const rows = place(y, 5.1, height, picture.height);
  const sums = [0, 0, 0, 0];
  rows.forEach((down, row) => {
    columns.forEach((across, col) => {
      const at = picture.channels * (row * picture.width + col);
      const [r, g, b, a] =
        picture.channels === 4
          ? picture.data.subarray(at, at + 4)
          : [picture.data[at], picture.data[at], picture.data[at], picture.data[at + 1]];
      [r, g, b].forEach((value, k) => {
        sums[k] += (down * across * value * a) / 255;
      });
      sums[3] += (down * across * a) / 255;
    });
  });
  return sums.slice(0, 3).map((value) => value + (1 - sums[3]) * under);
}

describe('a picture laid on a sheet', () => {
  it('is at every pixel the mean that the definition says, larger and smaller, and nothing beside it changes', () => {
    for (const [width, height] of [
      [41.3, 30.2],
      [9.4, 7.7],
      [14, 40.6],
    ])
      for (const channels of [2, 4] as const) {
        const picture = drawn(14, 11, channels);
        const sheet = { width: 50, height: 48, rgb: new Uint8Array(50 * 48 * 3).fill(200) };
        layPicture(sheet, { kind: 'picture', x: 1.6, y: 2.55, width: width / 2, height: height / 2, picture }, 2);
        for (let row = 0; row < 48; row++)
          for (let col = 0; col < 50; col++) {
            const [x, y] = [col + 0.5, row + 0.5];
            const within = x >= 3.2 && x < 3.2 + width && y >= 5.1 && y < 5.1 + height;
            const expected = within ? defined(picture, x, y, width, height, 200) : [200, 200, 200];
            const at = 3 * (row * 50 + col);
            for (let k = 0; k < 3; k++)
              expect(Math.abs(sheet.rgb[at + k] - (expected?.[k] ?? 0)), `${col} ${row}`).toBeLessThan(0.51);
          }
      }
  });

  it('may reach beyond the sheet or be a single sample', () => {
    const sheet = { width: 6, height: 6, rgb: new Uint8Array(108) };
    const picture: Picture = { width: 1, height: 1, channels: 2, data: Uint8Array.of(90, 255) };
    layPicture(sheet, { kind: 'picture', x: -4, y: -4, width: 20, height: 7, picture }, 1);
    expect([...sheet.rgb]).toEqual([...new Array(54).fill(90), ...new Array(54).fill(0)]);
    layPicture(sheet, { kind: 'picture', x: 0, y: 0, width: 6, height: 6, picture: drawn(6, 6, 4, true) }, 1);
    expect(new Set(sheet.rgb).size).toBeGreaterThan(30);
  });
});
