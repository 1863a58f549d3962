import type { Picture } from './drawing.ts';

/** Red, green and blue bytes on an opaque ground, row 0 at the top. */
export interface Canvas {
  readonly width: number;
  readonly height: number;
  readonly rgb: Uint8Array;
}

export type Rgb = readonly [number, number, number];

export const rgbOf = (hex: string): Rgb => [
  Number.parseInt(hex.slice(1, 3), 16),
  Number.parseInt(hex.slice(3, 5), 16),
  Number.parseInt(hex.slice(5, 7), 16),
];

export function blankCanvas(width: number, height: number, ground: Rgb): Canvas {
  const rgb = new Uint8Array(width * height * 3);
  rgb.set(ground);
  for (let done = 3; done < rgb.length; done *= 2) rgb.copyWithin(done, 0, done);
  return { width, height, rgb };
}

/** Lays a colour over one pixel: new = old + opacity (colour − old). */
function lay({ rgb }: Canvas, pixel: number, colour: Rgb, opacity: number): void {
  const i = pixel * 3;
  for (let c = 0; c < 3; c++) rgb[i + c] += Math.round((colour[c] - rgb[i + c]) * opacity);
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Whole pixels that the points touch, with a margin, held inside the canvas; right and bottom excluded. */
function boxOf(points: ArrayLike<number>, margin: number, canvas: Canvas): Box {
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i + 1 < points.length; i += 2) {
    left = Math.min(left, points[i]);
    right = Math.max(right, points[i]);
    top = Math.min(top, points[i + 1]);
    bottom = Math.max(bottom, points[i + 1]);
  }
  return {
    left: Math.max(0, Math.floor(left - margin)),
    right: Math.min(canvas.width, Math.ceil(right + margin)),
    top: Math.max(0, Math.floor(top - margin)),
    bottom: Math.min(canvas.height, Math.ceil(bottom + margin)),
  };
}

/**
 * Strokes of one width with round ends. A pixel's cover is min(1, max(0, w/2 + ½ − d)), d its centre's distance to the
 * nearest piece; the pieces of one call are joined before they are laid down, so that corners do not darken.
 * Strokes thinner than a pixel are drawn one pixel wide and fainter.
 */
export function strokeLines(canvas: Canvas, lines: readonly ArrayLike<number>[], width: number, colour: Rgb): void {
  const half = Math.max(width, 1) / 2 + 0.5;
  const boxes = lines.map((points) => boxOf(points, half, canvas));
  const box: Box = {
    left: Math.min(...boxes.map((b) => b.left)),
    right: Math.max(...boxes.map((b) => b.right)),
    top: Math.min(...boxes.map((b) => b.top)),
    bottom: Math.max(...boxes.map((b) => b.bottom)),
  };
  if (!(box.right > box.left && box.bottom > box.top)) return;
  const across = box.right - box.left;
  const cover = new Float32Array(across * (box.bottom - box.top));
  for (const p of lines)
    for (let k = 0; k + 3 < p.length; k += 2) coverPiece(cover, box, half, p[k], p[k + 1], p[k + 2], p[k + 3]);
  const strength = Math.min(1, width);
  for (let i = 0; i < cover.length; i++) {
    if (cover[i] <= 0) continue;
    const pixel = (box.top + Math.floor(i / across)) * canvas.width + box.left + (i % across);
    lay(canvas, pixel, colour, cover[i] * strength);
  }
}

/** Raises the cover along one straight piece; on each row only the pixels that it can reach are looked at. */
function coverPiece(cover: Float32Array, box: Box, half: number, ax: number, ay: number, bx: number, by: number): void {
  const across = box.right - box.left;
  const last = Math.min(box.bottom, Math.ceil(Math.max(ay, by) + half));
  for (let row = Math.max(box.top, Math.floor(Math.min(ay, by) - half)); row < last; row++) {
    const y = row + 0.5;
    const [t0, t1] = reach(ay, by, y - half, y + half);
    const [x0, x1] = [ax + t0 * (bx - ax), ax + t1 * (bx - ax)];
    const from = Math.max(box.left, Math.floor(Math.min(x0, x1) - half));
    const to = Math.min(box.right, Math.ceil(Math.max(x0, x1) + half));
    for (let col = from; col < to; col++) {
      const at = (row - box.top) * across + col - box.left;
      const c = Math.min(1, half - distanceToPiece(col + 0.5, y, ax, ay, bx, by));
      if (c > cover[at]) cover[at] = c;
    }
  }
}

/** Shares of the way from a to b between which it lies from `low` to `high`. */
function reach(a: number, b: number, low: number, high: number): [number, number] {
  if (Math.abs(b - a) < 1e-9) return [0, 1];
  const t0 = (low - a) / (b - a);
  const t1 = (high - a) / (b - a);
  return [Math.max(0, Math.min(t0, t1)), Math.min(1, Math.max(t0, t1))];
}

function distanceToPiece(x: number, y: number, ax: number, ay: number, bx: number, by: number): number {
  const ux = bx - ax;
  const uy = by - ay;
  const square = ux * ux + uy * uy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * ux + (y - ay) * uy) / square));
  const dx = x - ax - t * ux;
  const dy = y - ay - t * uy;
  return Math.sqrt(dx * dx + dy * dy);
}

/** Lines across each pixel along which an area's cover is measured exactly. */
const linesPerPixel = 4;

/** Fills a polygon, even-odd: along each of four lines a pixel the cover is exact, across them it is their mean. */
export function fillArea(canvas: Canvas, points: ArrayLike<number>, colour: Rgb, opacity = 1): void {
  const box = boxOf(points, 0, canvas);
  const cover = new Float32Array(canvas.width + 1);
  for (let y = box.top; y < box.bottom; y++) {
    cover.fill(0);
    for (let k = 0; k < linesPerPixel; k++) {
      const at = crossings(points, y + (k + 0.5) / linesPerPixel);
      for (let i = 0; i + 1 < at.length; i += 2) addSpan(cover, at[i], at[i + 1], box);
    }
    for (let x = box.left; x < box.right; x++)
      if (cover[x] > 0) lay(canvas, y * canvas.width + x, colour, (opacity * cover[x]) / linesPerPixel);
  }
}

function crossings(points: ArrayLike<number>, y: number): number[] {
  const out: number[] = [];
  const count = points.length;
  for (let i = 0; i < count; i += 2) {
    const j = (i + 2) % count;
    const [ay, by] = [points[i + 1], points[j + 1]];
    if (ay <= y === by <= y) continue;
    out.push(points[i] + ((y - ay) / (by - ay)) * (points[j] - points[i]));
  }
  return out.sort((a, b) => a - b);
}

function addSpan(cover: Float32Array, from: number, to: number, box: Box): void {
  for (let x = Math.max(box.left, Math.floor(from)); x < Math.min(box.right, to); x++)
    cover[x] += Math.max(0, Math.min(to, x + 1) - Math.max(from, x));
}

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
