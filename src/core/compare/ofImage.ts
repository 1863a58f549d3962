import { type Face, imageHull, insidePolygon } from '../face/index.ts';
import { columnOf, type Mesh, rowOf } from '../geometry/index.ts';
import { movePoints, type SubjectMotion } from './motion.ts';

/**
 * The depth differences of those vertices of the subject that lie over the reference's image (`imageHull`), mm, NaN for all others: lip, bevel
 * and cake tell nothing of the size along each axis.
 */
export function differencesOfImage(
  { image, relief, outline }: Pick<Face, 'image' | 'relief' | 'outline'>,
  { positions }: Pick<Mesh, 'positions'>,
  motion: SubjectMotion,
  perVertexMm: Float32Array,
): Float32Array {
  const inside = insidePolygon(relief, imageHull({ image, outline }));
  const out = new Float32Array(perVertexMm.length).fill(Number.NaN);
  const moved = new Float64Array(3 * chunk);
  for (let from = 0; from < out.length; from += chunk) {
    const to = Math.min(out.length, from + chunk);
    movePoints(motion, positions, from, to, moved);
    for (let i = from, k = 0; i < to; i++, k += 3) {
      const column = Math.round(columnOf(relief, moved[k]));
      const row = Math.round(rowOf(relief, moved[k + 1]));
      const over = column >= 0 && row >= 0 && column < relief.width && row < relief.height;
      if (over && inside[row * relief.width + column]) out[i] = perVertexMm[i];
    }
  }
  return out;
}

const chunk = 4096;
