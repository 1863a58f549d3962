import type { Vec2 } from '../geometry/index.ts';
import type { PlanarFit } from './similarity2d.ts';

/**
 * The similarity of the plane that takes `from` to `to` with the least sum of squares: with both centred and, where
 * `flipX`, x of `to` negated, s · e^{iθ} = Σ conj(p) q / Σ |p|² in complex numbers. mm; two pairs or more.
 * `restMm` is the root mean square of what it leaves, `spreadMm` that of the places about their middle, both of `to`.
 */
export function planarFromPairs(
  from: readonly Vec2[],
  to: readonly Vec2[],
  flipX: boolean,
  negate: boolean,
): { fit: PlanarFit; restMm: number; spreadMm: number } {
  const sign = flipX ? -1 : 1;
  const target = to.map(([x, y]): Vec2 => [sign * x, y]);
  const [a, b] = [middle(from), middle(target)];
  let [re, im, size, spread] = [0, 0, 0, 0];
  for (let i = 0; i < from.length; i++) {
    const [px, py] = [from[i][0] - a[0], from[i][1] - a[1]];
    const [qx, qy] = [target[i][0] - b[0], target[i][1] - b[1]];
    re += px * qx + py * qy;
    im += px * qy - py * qx;
    size += px * px + py * py;
    spread += qx * qx + qy * qy;
  }
  const [c, s] = size > 0 ? [re / size, im / size] : [1, 0];
  const rest = Math.max(0, spread - (c * c + s * s) * size);
  const fit: PlanarFit = {
    flipX,
    negate,
    turn: Math.atan2(s, c),
    scale: Math.hypot(c, s),
    tx: sign * (b[0] - (c * a[0] - s * a[1])),
    ty: b[1] - (s * a[0] + c * a[1]),
  };
  return { fit, restMm: Math.sqrt(rest / from.length), spreadMm: Math.sqrt(spread / from.length) };
}

function middle(points: readonly Vec2[]): Vec2 {
  const sum = points.reduce((s, [x, y]): Vec2 => [s[0] + x, s[1] + y], [0, 0] as Vec2);
  return [sum[0] / points.length, sum[1] / points.length];
}
