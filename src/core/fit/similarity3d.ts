import type { Similarity } from '../geometry/index.ts';
import { affineOf, type PlanarFit } from './similarity2d.ts';

/**
 * The similarity of space that does in the face planes what a planar fit does: x and y by F · s · R(θ), heights by ±s.
 * Both planes are the faces' own mean planes, so there is no shift along z.
 */
export function liftPlanar(fit: PlanarFit): Similarity {
  const { a, b, c, d, tx, ty } = affineOf(fit);
  const s = fit.scale;
  const z = fit.negate ? -1 : 1;
  return { scale: s, rotation: [a / s, b / s, 0, c / s, d / s, 0, 0, 0, z], translation: [tx, ty, 0] };
}
