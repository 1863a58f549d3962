import type { Features } from './types.ts';

/** A similarity of the plane: p ↦ scale · R(turn) p + (tx, ty); turn in radians counter-clockwise. */
export interface Planar {
  readonly scale: number;
  readonly turn: number;
  readonly tx: number;
  readonly ty: number;
}

/** The motion that turns by `turn` and brings (ax, ay) to (bx, by). */
export function planarFrom(ax: number, ay: number, bx: number, by: number, turn: number, scale = 1): Planar {
  const c = scale * Math.cos(turn);
  const s = scale * Math.sin(turn);
  return { scale, turn, tx: bx - (c * ax - s * ay), ty: by - (s * ax + c * ay) };
}

/**
 * Least squares between pairs of features, scale held within `mostScale` of 1: with centred p and q as complex numbers,
 * scale · e^{i turn} = Σ p̄ q / Σ |p|². Returns the middle of the pairs on `a` too.
 */
export function alignPairs(
  a: Features,
  b: Features,
  onA: readonly number[],
  onB: readonly number[],
  mostScale: number,
) {
  const n = onA.length;
  const mean = (values: Float32Array, list: readonly number[]): number =>
    list.reduce((sum, i) => sum + values[i], 0) / n;
  const [ax, ay, bx, by] = [mean(a.x, onA), mean(a.y, onA), mean(b.x, onB), mean(b.y, onB)];
  let [re, im, square] = [0, 0, 0];
  for (let k = 0; k < n; k++) {
    const [px, py] = [a.x[onA[k]] - ax, a.y[onA[k]] - ay];
    const [qx, qy] = [b.x[onB[k]] - bx, b.y[onB[k]] - by];
    re += px * qx + py * qy;
    im += px * qy - py * qx;
    square += px * px + py * py;
  }
  const scale = Math.min(mostScale, Math.max(1 / mostScale, Math.hypot(re, im) / (square || 1)));
  return { fit: planarFrom(ax, ay, bx, by, Math.atan2(im, re), scale), middle: [ax, ay] as const };
}
