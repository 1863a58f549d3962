import type { Face } from '../../face/index.ts';
import { apply, compose, invert } from '../../geometry/index.ts';

type Lying = Pick<Face, 'faceFromScan' | 'upFrom'>;

/** How two sides of one object lie to one another. */
export interface BetweenFaces {
  /** From mean plane to mean plane, along the first side's normal. */
  readonly thicknessMm: number;
  /** Of the outlines' centres, along the first side's plane. */
  readonly offsetMm: number;
  /** Of the second side's top, clockwise as seen on it, as on a page that is turned about its upright; null where a top was not made out. */
  readonly turnDeg: number | null;
}

/**
 * Two faces of one scan. With F the first's face frame ← the second's: thickness −z and offset |(x, y)| of F's origin, turn
 * atan2(−u_x, u_y) of F's (0, 1, 0). Null where they do not look away from one another (within 25°).
 */
export function betweenFaces(one: Lying, two: Lying): BetweenFaces | null {
  const firstFromSecond = compose(one.faceFromScan, invert(two.faceFromScan));
  const [x, y, z] = apply(firstFromSecond, [0, 0, 0]);
  const { rotation: r } = firstFromSecond;
  if (r[8] > -Math.cos((25 * Math.PI) / 180)) return null;
  const turnDeg = (Math.atan2(-r[1], r[4]) * 180) / Math.PI;
  const known = one.upFrom !== 'scan' && two.upFrom !== 'scan';
  return { thicknessMm: -z, offsetMm: Math.hypot(x, y), turnDeg: known ? turnDeg : null };
}
