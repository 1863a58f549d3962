import { type Box, boxOf, type Canvas, lay, type Rgb } from './canvas.ts';

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
