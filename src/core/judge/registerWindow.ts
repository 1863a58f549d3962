import type { HeightGrid } from '../geometry/index.ts';

/** Where a window of the reference lies on the subject, and how sharply its correlation falls off: −½ of the second derivatives, per cell². */
export interface Placed {
  /** Shift in cells, x right and y up. */
  readonly dx: number;
  readonly dy: number;
  readonly correlation: number;
  readonly falloff: readonly [xx: number, xy: number, yy: number];
  /** The best place lies within the reach, not on its edge. */
  readonly inside: boolean;
}

/**
 * Registers the square window of `side` cells at (`left`, `top`) of the reference alone on the subject: best
 * correlation over shifts of at most `reach` cells, refined by parabolas. Both grids lie on the same cells.
 */
export function registerWindow(
  reference: HeightGrid,
  subject: HeightGrid,
  left: number,
  top: number,
  side: number,
  reach: number,
): Placed {
  const width = 2 * reach + 1;
  const score = new Float64Array(width * width).fill(-1);
  let best = 0;
  for (let dy = -reach; dy <= reach; dy++)
    for (let dx = -reach; dx <= reach; dx++) {
      const k = (dy + reach) * width + dx + reach;
      score[k] = shiftedCorrelation(reference, subject, left, top, side, dx, dy);
      if (score[k] > score[best]) best = k;
    }
  const col = best % width;
  const row = Math.floor(best / width);
  const inside = col > 0 && col < width - 1 && row > 0 && row < width - 1;
  const at = (i: number, j: number): number => score[best + i + j * width];
  return {
    dx: col - reach + vertex(at(-1, 0), at(0, 0), at(1, 0), inside),
    dy: -(row - reach + vertex(at(0, -1), at(0, 0), at(0, 1), inside)),
    correlation: score[best],
    inside,
    // Rows run downward, so the mixed derivative changes sign with y.
    falloff: inside
      ? [
          (2 * at(0, 0) - at(-1, 0) - at(1, 0)) / 2,
          (at(1, 1) + at(-1, -1) - at(1, -1) - at(-1, 1)) / 8,
          (2 * at(0, 0) - at(0, -1) - at(0, 1)) / 2,
        ]
      : [1, 0, 1],
  };
}

/** Correlation of a cell with the subject shifted by whole cells; −1 where less than half of it has data. */
export function shiftedCorrelation(
  a: HeightGrid,
  b: HeightGrid,
  left: number,
  top: number,
  side: number,
  dx: number,
  dy: number,
): number {
  let [n, sa, sb, saa, sab, sbb] = [0, 0, 0, 0, 0, 0];
  for (let row = top; row < top + side; row++) {
    const other = row + dy;
    if (other < 0 || other >= b.height) continue;
    for (let col = left; col < left + side; col++) {
      const there = col + dx;
      if (there < 0 || there >= b.width) continue;
      const i = row * a.width + col;
      const j = other * b.width + there;
      if (!(a.mask[i] && b.mask[j])) continue;
      const x = a.z[i];
      const y = b.z[j];
      n++;
      sa += x;
      sb += y;
      saa += x * x;
      sab += x * y;
      sbb += y * y;
    }
  }
  const vaa = saa - (sa * sa) / n;
  const vbb = sbb - (sb * sb) / n;
  if (2 * n < side * side || !(vaa > 0 && vbb > 0)) return -1;
  return (sab - (sa * sb) / n) / Math.sqrt(vaa * vbb);
}

/** Where the parabola through three neighbours has its top, −½ to ½. */
function vertex(before: number, at: number, after: number, inside: boolean): number {
  if (!inside) return 0;
  const curvature = before - 2 * at + after;
  return curvature < 0 ? Math.max(-0.5, Math.min(0.5, (before - after) / (2 * curvature))) : 0;
}
