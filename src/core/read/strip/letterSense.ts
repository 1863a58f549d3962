import { capitalsIn, type LetterSense, letterCourse, letterSenses, rows } from '../../design/index.ts';
import type { HeightGrid } from '../../geometry/index.ts';
import { letterPicture } from './letterPicture.ts';
import type { Strip } from './unroll.ts';

export interface SenseOfLetters {
  readonly sense: LetterSense;
  /** How many standard errors the best stands above the next. */
  readonly separation: number;
  readonly decided: boolean;
  /** What the best course of capitals explains in each sense, above its price, in the order of `letterSenses`. */
  readonly likeness: readonly [number, number, number, number];
}

/**
 * Tells upright letters from letters with feet the other way, and from a truly retrograde legend, by likeness to the
 * skeletons of capitals in three widths. For every sense the course of letters that explains most of the strip is laid
 * (`letterCourse`); senses are ranked by what their course explains, and told apart by a paired test over pieces one
 * letter high in length. It only reports: a strip is never flipped to look right. The method is this project's own.
 */
export function senseOfLetters(strip: Strip): SenseOfLetters {
  const picture = letterPicture(strip, [0, 1], strokeWave);
  const pieces = letterSenses.map((sense) => perPiece(lettersExplain(picture, sense)));
  const likeness = pieces.map((values) => meanOf(values) || 0);
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
  };
}

/** A retrograde legend is rare and needs more. */
const leastSeparation = 1;
const separationForRetrograde = 2;

/**
 * Skeletons have strokes of one width: thin and broad ones are brought nearer to it. On thirty legends a stretch of eight
 * letters was told from the same upside down in 96 of 100 new and 98 rubbed by 60 %; with 0.12 of the height in 90 and 97.
 */
export const strokeWave = 0.25;

const widths = [0.8, 1, 1.2];

/** What the capitals in one sense explain at each column of a strip's picture. */
export const lettersExplain = (
  picture: HeightGrid,
  sense: LetterSense,
  worthOf?: (q: number) => number,
): Float64Array => letterCourse(picture, capitalsIn(sense, rows, widths), worthOf);

function meanOf(values: Float64Array): number {
  let sum = 0;
  let count = 0;
  for (const value of values)
    if (!Number.isNaN(value)) {
      sum += value;
      count++;
    }
  return count > 0 ? sum / count : Number.NaN;
}

/** Means over pieces one letter high in length; NaN where nothing has data. */
function perPiece(worth: Float64Array): Float64Array {
  const count = Math.floor(worth.length / rows);
  return Float64Array.from({ length: count }, (_, k) => meanOf(worth.subarray(k * rows, (k + 1) * rows)));
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
