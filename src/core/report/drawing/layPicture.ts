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
  const { channels } = picture;
  const wide = channels * (across.to - across.from);
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
    layRow(sheet.rgb, 3 * (row * sheet.width + across.from), sums, channels);
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

/** Every row of the picture as wide as on the sheet: its colours times opacity, and opacity. */
function inColumns({ width, height, channels, data }: Picture, taps: Taps): Float32Array {
  const wide = channels * (taps.to - taps.from);
  const out = new Float32Array(wide * height);
  for (let row = 0; row < height; row++) rowInColumns(data, channels, row * width, taps, out, row * wide);
  return out;
}

/** One row; a function of its own is compiled well after a few of them, a loop over all while the fifth picture is laid. */
function rowInColumns(
  data: Uint8Array,
  channels: number,
  sampleFrom: number,
  { first, count, weight }: Taps,
  out: Float32Array,
  from: number,
): void {
  const colours = channels - 1;
  for (let i = 0, at = from; i < first.length; i++, at += channels)
    for (let k = 0; k < count; k++) {
      const sample = channels * (sampleFrom + first[i] + k);
      const share = (weight[i * count + k] * data[sample + colours]) / 255;
      for (let c = 0; c < colours; c++) out[at + c] += share * data[sample + c];
      out[at + colours] += share;
    }
}

function addRow(sums: Float32Array, rows: Float32Array, from: number, weight: number): void {
  if (weight > 0) for (let i = 0; i < sums.length; i++) sums[i] += weight * rows[from + i];
}

/** `channels`: grey and opacity, or red, green, blue and opacity. */
function layRow(rgb: Uint8Array, from: number, sums: Float32Array, channels: number): void {
  const [green, blue] = channels === 2 ? [0, 0] : [1, 2];
  for (let i = 0, at = from; i < sums.length; i += channels, at += 3) {
    const under = 1 - sums[i + channels - 1];
    rgb[at] = sums[i] + under * rgb[at] + 0.5;
    rgb[at + 1] = sums[i + green] + under * rgb[at + 1] + 0.5;
    rgb[at + 2] = sums[i + blue] + under * rgb[at + 2] + 0.5;
  }
}
