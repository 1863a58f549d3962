import type { Picture, PictureMark } from './drawing.ts';

/** Red, green and blue, row 0 at the top. */
interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly rgb: Uint8Array;
}

/** Along one axis: the pixels that are covered, and of each the samples it is a mean of, with their weights (they add up to 1). */
interface Taps {
  readonly from: number;
  readonly to: number;
  readonly first: Int32Array;
  readonly count: number;
  /** `count` of them for each pixel. */
  readonly weight: Float32Array;
}

/**
 * Lays a picture on the sheet, `times` pixels to a unit of the drawing, every pixel a mean of the samples about its centre: of the two
 * nearest along each axis where samples are wider than pixels, of all within one sample's width where they are finer (a tent), so that
 * fine lines do not break. At its own size it is the picture itself. Clear places let the sheet show.
 */
export function layPicture(sheet: Sheet, { x, y, width, height, picture }: PictureMark, times: number): void {
  const across = tapsOf(x * times, (x + width) * times, picture.width, sheet.width);
  const down = tapsOf(y * times, (y + height) * times, picture.height, sheet.height);
  const rows = inColumns(picture, across);
  const wide = 4 * (across.to - across.from);
  const sums = new Float32Array(wide);
  for (let row = down.from; row < down.to; row++) {
    sums.fill(0);
    for (let k = 0; k < down.count; k++)
      addRow(
        sums,
        rows,
        wide * down.first[row - down.from] + wide * k,
        down.weight[(row - down.from) * down.count + k],
      );
    layRow(sheet.rgb, 3 * (row * sheet.width + across.from), sums);
  }
}

function tapsOf(start: number, end: number, samples: number, pixels: number): Taps {
  const from = Math.max(0, Math.ceil(start - 0.5));
  const to = Math.min(pixels, Math.max(from, Math.ceil(end - 0.5)));
  const step = samples / (end - start);
  const reach = Math.max(1, step);
  const count = Math.min(samples, 2 * Math.ceil(reach));
  const first = new Int32Array(to - from);
  const weight = new Float32Array((to - from) * count);
  for (let i = 0; i < to - from; i++) {
    const centre = (from + i + 0.5 - start) * step - 0.5;
    first[i] = Math.min(samples - count, Math.max(0, Math.ceil(centre - reach)));
    let sum = 0;
    for (let k = 0; k < count; k++) {
      const away = Math.abs(Math.min(samples - 1, Math.max(0, centre)) - first[i] - k);
      weight[i * count + k] = Math.max(0, 1 - away / reach);
      sum += weight[i * count + k];
    }
    for (let k = 0; k < count; k++) weight[i * count + k] /= sum;
  }
  return { from, to, first, count, weight };
}

/** Every row of the picture as wide as on the sheet: red, green, blue times opacity, and opacity. */
function inColumns({ width, height, channels, data }: Picture, { from, to, first, count, weight }: Taps): Float32Array {
  const out = new Float32Array(4 * (to - from) * height);
  const [green, blue, opacity] = channels === 2 ? [0, 0, 1] : [1, 2, 3];
  for (let row = 0, at = 0; row < height; row++)
    for (let i = 0; i < to - from; i++, at += 4)
      for (let k = 0; k < count; k++) {
        const sample = channels * (row * width + first[i] + k);
        const share = (weight[i * count + k] * data[sample + opacity]) / 255;
        out[at] += share * data[sample];
        out[at + 1] += share * data[sample + green];
        out[at + 2] += share * data[sample + blue];
        out[at + 3] += share;
      }
  return out;
}

function addRow(sums: Float32Array, rows: Float32Array, from: number, weight: number): void {
  if (weight > 0) for (let i = 0; i < sums.length; i++) sums[i] += weight * rows[from + i];
}

function layRow(rgb: Uint8Array, from: number, sums: Float32Array): void {
  for (let i = 0, at = from; i < sums.length; i += 4, at += 3) {
    const under = 1 - sums[i + 3];
    rgb[at] = sums[i] + under * rgb[at] + 0.5;
    rgb[at + 1] = sums[i + 1] + under * rgb[at + 1] + 0.5;
    rgb[at + 2] = sums[i + 2] + under * rgb[at + 2] + 0.5;
  }
}
