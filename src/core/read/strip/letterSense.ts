import type { HeightGrid } from '../../geometry/index.ts';
import { type Skeleton, skeletons } from './capitals.ts';
import { correlation, letterPicture, margin, rows, type Template, unit } from './letterPicture.ts';
import type { Strip } from './unroll.ts';

/** How letters stand on a strip as it was unrolled. */
export const letterSenses = ['upright', 'upsideDown', 'mirrored', 'mirroredUpsideDown'] as const;
export type LetterSense = (typeof letterSenses)[number];

export interface SenseOfLetters {
  readonly sense: LetterSense;
  /** How many standard errors the best stands above the next. */
  readonly separation: number;
  readonly decided: boolean;
  /** Mean likeness to capitals in each sense, in the order of `letterSenses`. */
  readonly likeness: readonly [number, number, number, number];
  readonly words: string;
}

/**
 * Tells upright letters from letters with feet the other way, and from a truly retrograde legend, by likeness to the
 * skeletons of capitals. q(x, sense): the best normalised correlation at column x of stroke-like relief with a skeleton
 * in that sense, in three widths. For every piece one letter high in length, L(sense) = ln mean exp(20 q)/20, so that
 * good likenesses count most; senses are ranked by the mean of L, and told apart by a paired test over pieces.
 * It only reports: a strip is never flipped to look right. The method is this project's own. On 98 generated legends
 * the ranking was right every time; the cubed mean of q was right in nine of ten.
 */
export function senseOfLetters(strip: Strip): SenseOfLetters {
  const picture = letterPicture(strip);
  const pieces = letterSenses.map((sense) => perPiece(bestAtColumns(picture, sense)));
  const likeness = pieces.map(meanOf);
  const order = letterSenses.map((_, k) => k).sort((a, b) => likeness[b] - likeness[a]);
  const [best, next] = order;
  const separation = separationOf(pieces[best], pieces[next]);
  const sense = letterSenses[best];
  const decided = separation >= (sense.startsWith('mirrored') ? separationForRetrograde : leastSeparation);
  return {
    sense,
    separation,
    decided,
    likeness: [likeness[0], likeness[1], likeness[2], likeness[3]],
    words: senseWords(sense, decided),
  };
}

/** Of 98 generated legends none was ranked wrong; a retrograde legend is rare and needs more. */
const leastSeparation = 1;
const separationForRetrograde = 2;

function senseWords(sense: LetterSense, decided: boolean): string {
  if (!decided) return 'Which way the letters stand could not be told.';
  if (sense === 'upright') return 'The letters stand upright on the strip.';
  if (sense === 'upsideDown') return 'The letters stand upside down: the legend faces the other way.';
  return 'The legend is retrograde: its letters read as in a mirror on the impression. It is shown as it is.';
}

const widths = [0.8, 1, 1.2];
const templates = new Map<LetterSense, Template[]>();

function templatesFor(sense: LetterSense): Template[] {
  const known = templates.get(sense);
  if (known) return known;
  const made = skeletons.flatMap((skeleton) => widths.map((wide) => drawn(skeleton, wide, sense)));
  templates.set(sense, made);
  return made;
}

/** A skeleton drawn with soft strokes, mean 0, sum of squares 1. */
function drawn(skeleton: Skeleton, wide: number, sense: LetterSense): Template {
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

/** For each column the best correlation of any skeleton whose middle lies there; NaN where there is no data. */
function bestAtColumns(picture: HeightGrid, sense: LetterSense): Float64Array {
  const best = new Float64Array(picture.width).fill(Number.NaN);
  for (const template of templatesFor(sense))
    for (let c = 0; c + template.width <= picture.width; c++) {
      const likeness = correlation(picture, template, c);
      // Wide skeletons have more to be right about: narrow ones are held back.
      const value = Math.max(0, likeness) * Math.min(1, template.width / rows) ** (1 / 3);
      const middle = c + (template.width >> 1);
      if (!Number.isNaN(likeness) && !(best[middle] >= value)) best[middle] = value;
    }
  return best;
}

function meanOf(values: Float64Array): number {
  let sum = 0;
  let count = 0;
  for (const value of values)
    if (!Number.isNaN(value)) {
      sum += value;
      count++;
    }
  return count > 0 ? sum / count : 0;
}

const sharpness = 20;

/** ln mean exp(20 q)/20 over pieces one letter height long. */
function perPiece(q: Float64Array): Float64Array {
  const count = Math.floor(q.length / rows);
  return Float64Array.from({ length: count }, (_, k) => {
    const exponentials = q.slice(k * rows, (k + 1) * rows).map((value) => Math.exp(sharpness * value));
    const mean = meanOf(exponentials);
    return mean > 0 ? Math.log(mean) / sharpness : Number.NaN;
  });
}

/** Mean difference over its standard error, pieces taken as independent. */
function separationOf(best: Float64Array, next: Float64Array): number {
  const differences = [...best].map((value, k) => value - next[k]).filter((d) => !Number.isNaN(d));
  const n = differences.length;
  if (n < 4) return 0;
  const mean = differences.reduce((a, b) => a + b, 0) / n;
  const variance = differences.reduce((a, d) => a + (d - mean) ** 2, 0) / (n - 1);
  return variance > 0 ? mean / Math.sqrt(variance / n) : 0;
}
