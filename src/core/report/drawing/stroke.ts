import { type Box, boxOf, type Canvas, lay, type Rgb } from './canvas.ts';

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
