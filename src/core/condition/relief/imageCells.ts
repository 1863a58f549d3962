import { type Face, imageHull, insidePolygon } from '../../face/index.ts';
import type { WearRelief } from './relief.ts';

/**
 * 1 for the cells that marks, zones and heights kept are told of: within the convex hull of the reference's image, so that breaks belong to it and bevel and
 * cake do not. The two are laid on one another, and their noise is measured, on all that both show.
 */
export function imageCells(
  { inside, reference, turned }: Pick<WearRelief, 'inside' | 'reference' | 'turned'>,
  face: Pick<Face, 'image' | 'outline'>,
): Uint8Array {
  const hull = imageHull(face);
  const within = insidePolygon(reference, turned ? hull.map((value, k) => (k % 2 === 0 ? -value : value)) : hull);
  return within.map((value, i) => value & inside[i]);
}
