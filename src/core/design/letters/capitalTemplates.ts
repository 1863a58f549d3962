import { type Skeleton, skeletons } from './capitals.ts';
import { margin, type Template, unit } from './template.ts';

/** How letters stand on a strip as it was unrolled. */
export const letterSenses = ['upright', 'upsideDown', 'mirrored', 'mirroredUpsideDown'] as const;
export type LetterSense = (typeof letterSenses)[number];

const templates = new Map<string, readonly Template[]>();

/** All capitals in one sense, `rows` high, in each of the widths (1: as their skeletons are). */
export function capitalsIn(sense: LetterSense, rows: number, widths: readonly number[]): readonly Template[] {
  const name = `${sense} ${rows} ${widths}`;
  const known = templates.get(name);
  if (known) return known;
  const made = skeletons.flatMap((skeleton) => widths.map((wide) => drawn(skeleton, wide, sense, rows)));
  templates.set(name, made);
  return made;
}

/** A skeleton drawn with soft strokes, mean 0, sum of squares 1. */
function drawn(skeleton: Skeleton, wide: number, sense: LetterSense, rows: number): Template {
  const width = Math.round(skeleton.width * wide * rows) + 2 * margin;
  const height = rows + 2 * margin;
  const values = new Float32Array(width * height);
  const flipX = sense === 'mirrored' || sense === 'upsideDown';
  const flipY = sense === 'upsideDown' || sense === 'mirroredUpsideDown';
  for (let r = 0; r < height; r++)
    for (let c = 0; c < width; c++) {
      const u = (c + 0.5 - margin) / (rows * wide);
      const v = 1 - (r + 0.5 - margin) / rows;
      const d = distanceTo(skeleton, flipX ? skeleton.width - u : u, flipY ? 1 - v : v);
      values[r * width + c] = Math.exp(-(d * d) / (2 * 0.07 * 0.07));
    }
  return { width, values: unit(values) };
}

function distanceTo({ strokes }: Skeleton, x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (const stroke of strokes)
    for (let i = 2; i < stroke.length; i += 2) {
      const ax = stroke[i - 2];
      const ay = stroke[i - 1];
      const bx = stroke[i] - ax;
      const by = stroke[i + 1] - ay;
      const t = Math.max(0, Math.min(1, ((x - ax) * bx + (y - ay) * by) / (bx * bx + by * by || 1)));
      least = Math.min(least, Math.hypot(x - ax - t * bx, y - ay - t * by));
    }
  return least;
}
