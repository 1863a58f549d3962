import { bandPass, type HeightGrid } from '../../geometry/index.ts';
import { type Skeleton, skeletons } from './capitals.ts';
import type { Strip } from './unroll.ts';

/** How letters stand on a strip as it was unrolled. */
export const letterSenses = ['upright', 'upsideDown', 'mirrored', 'mirroredUpsideDown'] as const;
export type LetterSense = (typeof letterSenses)[number];

export interface SenseOfLetters {
  readonly sense: LetterSense;
  /** How many standard errors the best stands above the next; under 2.5 it is not to be relied on. */
  readonly separation: number;
  readonly decided: boolean;
  /** Mean likeness to capitals in each sense, in the order of `letterSenses`. */
  readonly likeness: readonly [number, number, number, number];
  readonly words: string;
}

/** Rows that a letter is brought to. */
const rows = 22;
const margin = 3;
const leastSeparation = 2.5;

/**
 * Tells upright letters from letters with feet the other way, and from a truly retrograde legend, by likeness to the
 * skeletons of capitals: normalised correlation of stroke-like relief with each skeleton, in three widths and all four
 * senses, the best at every place, cubed and averaged. It only reports: a strip is never flipped to look right.
 * The method is this project's own; worn or minuscule legends are left undecided.
 */
export function senseOfLetters(strip: Strip): SenseOfLetters {
  const picture = letterPicture(strip);
  const scores = letterSenses.map((sense) => bestAtColumns(picture, sense));
  const order = letterSenses.map((_, k) => k).sort((a, b) => meanOf(scores[b]) - meanOf(scores[a]));
  const [best, next] = order;
  const separation = separationOf(scores[best], scores[next]);
  const decided = separation >= leastSeparation;
  const likeness = scores.map(meanOf);
  return {
    sense: letterSenses[best],
    separation,
    decided,
    likeness: [likeness[0], likeness[1], likeness[2], likeness[3]],
    words: senseWords(letterSenses[best], decided),
  };
}

function senseWords(sense: LetterSense, decided: boolean): string {
  if (!decided) return 'Which way the letters stand could not be told.';
  if (sense === 'upright') return 'The letters stand upright on the strip.';
  if (sense === 'upsideDown') return 'The letters stand upside down: the legend faces the other way.';
  return 'The legend is retrograde: its letters read as in a mirror on the impression. It is shown as it is.';
}

/** Relief at the size of strokes, letters `rows` high, with `margin` rows above and below. */
export function letterPicture(strip: Strip): HeightGrid {
  const { band, grid } = strip;
  const letterMm = band.lettersInnerMm - band.lettersOuterMm;
  const strokes = bandPass(grid, 0.12 * letterMm, 1.2 * letterMm);
  const pitch = letterMm / rows;
  const width = Math.floor((grid.width * grid.pitch) / pitch);
  const height = rows + 2 * margin;
  const z = new Float32Array(width * height);
  const mask = new Uint8Array(width * height);
  const top = letterMm / 2 + margin * pitch;
  for (let r = 0; r < height; r++)
    for (let c = 0; c < width; c++) {
      const row = Math.round((grid.top - top + (r + 0.5) * pitch) / grid.pitch);
      const col = Math.round(((c + 0.5) * pitch) / grid.pitch);
      if (row < 0 || row >= grid.height || col >= grid.width) continue;
      const i = row * grid.width + col;
      if (!grid.mask[i]) continue;
      z[r * width + c] = strokes.z[i];
      mask[r * width + c] = 1;
    }
  return { width, height, pitch, left: 0, top: 0, z, mask };
}

interface Template {
  readonly width: number;
  readonly values: Float32Array;
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

function unit(values: Float32Array): Float32Array {
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  let squares = 0;
  for (const value of values) squares += (value - mean) ** 2;
  return values.map((value) => (value - mean) / Math.sqrt(Math.max(1e-12, squares)));
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

/** For each column the cube of the best correlation of any skeleton that begins there; NaN where there is no data. */
export function bestAtColumns(picture: HeightGrid, sense: LetterSense): Float64Array {
  const best = new Float64Array(picture.width).fill(Number.NaN);
  for (const template of templatesFor(sense))
    for (let c = 0; c + template.width <= picture.width; c++) {
      const likeness = correlation(picture, template, c);
      // Wide skeletons have more to be right about: narrow ones are held back.
      const value = likeness > 0 ? likeness * Math.min(1, template.width / rows) ** (1 / 3) : 0;
      const middle = c + (template.width >> 1);
      if (!Number.isNaN(likeness) && !(best[middle] >= value)) best[middle] = value;
    }
  return best;
}

function correlation({ width, height, z, mask }: HeightGrid, template: Template, column: number): number {
  let product = 0;
  let sum = 0;
  let squares = 0;
  let count = 0;
  for (let r = 0; r < height; r++) {
    const from = r * width + column;
    const to = r * template.width;
    for (let c = 0; c < template.width; c++) {
      if (!mask[from + c]) continue;
      const value = z[from + c];
      product += value * template.values[to + c];
      sum += value;
      squares += value * value;
      count++;
    }
  }
  if (count < 0.85 * height * template.width) return Number.NaN;
  const spread = squares - (sum * sum) / count;
  return spread > 1e-12 ? product / Math.sqrt(spread) : 0;
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

/** Mean difference over its standard error, from pieces one and a half letters long, taken as independent. */
function separationOf(best: Float64Array, next: Float64Array): number {
  const piece = Math.round(1.5 * rows);
  const differences: number[] = [];
  for (let from = 0; from + piece <= best.length; from += piece) {
    const d = meanOf(best.slice(from, from + piece)) - meanOf(next.slice(from, from + piece));
    differences.push(d);
  }
  const n = differences.length;
  if (n < 4) return 0;
  const mean = differences.reduce((a, b) => a + b, 0) / n;
  const variance = differences.reduce((a, d) => a + (d - mean) ** 2, 0) / (n - 1);
  return variance > 0 ? mean / Math.sqrt(variance / n) : 0;
}
