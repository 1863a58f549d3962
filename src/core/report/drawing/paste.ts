import { boxOf, type Canvas } from './canvas.ts';
import type { Picture } from './drawing.ts';

/** Lays a picture into the rectangle, bilinear between the centres of its pixels, by its own opacity. */
export function drawPicture(
  canvas: Canvas,
  picture: Picture,
  x: number,
  y: number,
  width: number,
  height: number,
): void {
  const box = boxOf([x, y, x + width, y + height], 0, canvas);
  const columns = between(box.left, box.right, x, width, picture.width);
  const rows = between(box.top, box.bottom, y, height, picture.height);
  const value = new Float64Array(4);
  for (let row = box.top; row < box.bottom; row++) {
    const r = row - box.top;
    if (rows.first[r] < 0) continue;
    for (let col = box.left; col < box.right; col++) {
      const c = col - box.left;
      if (columns.first[c] < 0) continue;
      mixFour(
        picture,
        columns.first[c],
        columns.second[c],
        rows.first[r],
        rows.second[r],
        columns.share[c],
        rows.share[r],
        value,
      );
      const opacity = value[3];
      if (opacity <= 0) continue;
      const i = (row * canvas.width + col) * 3;
      for (let k = 0; k < 3; k++) canvas.rgb[i + k] = Math.round(canvas.rgb[i + k] * (1 - opacity) + value[k]);
    }
  }
}

/** For each pixel from `start` to `end`: the two of the picture on either side of its centre, and the share of the second. */
function between(start: number, end: number, from: number, size: number, count: number) {
  const length = Math.max(0, end - start);
  const first = new Int32Array(length).fill(-1);
  const second = new Int32Array(length);
  const share = new Float64Array(length);
  for (let k = 0; k < length; k++) {
    const u = ((start + k + 0.5 - from) / size) * count - 0.5;
    if (u < -0.5 || u > count - 0.5) continue;
    const low = Math.floor(u);
    first[k] = Math.max(0, low);
    second[k] = Math.min(count - 1, low + 1);
    share[k] = u - low;
  }
  return { first, second, share };
}

/** Red, green and blue times opacity, and opacity (0 to 1), of four neighbouring pixels mixed by their shares. */
function mixFour(
  { width, channels, data }: Picture,
  c0: number,
  c1: number,
  r0: number,
  r1: number,
  u: number,
  v: number,
  out: Float64Array,
): void {
  const places = [r0 * width + c0, r0 * width + c1, r1 * width + c0, r1 * width + c1];
  let [red, green, blue, all] = [0, 0, 0, 0];
  for (let k = 0; k < 4; k++) {
    const i = places[k] * channels;
    const opacity = data[i + channels - 1];
    if (opacity === 0) continue;
    const share = ((k & 1 ? u : 1 - u) * (k & 2 ? v : 1 - v) * opacity) / 255;
    red += share * data[i];
    green += share * data[channels === 4 ? i + 1 : i];
    blue += share * data[channels === 4 ? i + 2 : i];
    all += share;
  }
  out[0] = red;
  out[1] = green;
  out[2] = blue;
  out[3] = all;
}
