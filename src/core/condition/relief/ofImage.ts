import { type Face, imageHull, insidePolygon } from '../../face/index.ts';
import { mirrored, type WearRelief } from './relief.ts';

/**
 * The relief with what lies beyond the convex hull of the reference's image left out: marks, zones and heights kept are told of it, so that breaks belong to it
 * and bevel and cake do not, and its heights stand over its own ground. Levelling, distances from the edge and the size are those of the whole.
 */
export function ofImage(relief: WearRelief, face: Pick<Face, 'image' | 'outline'>): WearRelief {
  const { reference, turned } = relief;
  const hull = imageHull(face);
  const within = insidePolygon(reference, turned ? mirrored(hull) : hull);
  const [inside, image] = [relief.inside, relief.image].map((cells) => cells.map((value, i) => value & within[i]));
  return { ...relief, inside, image };
}
