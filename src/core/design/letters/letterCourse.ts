import type { HeightGrid } from '../../geometry/index.ts';
import { correlation, margin, type Template } from './template.ts';

/** Squared likeness that a letter must have to be worth naming. */
const leastShare = 0.3;

/** What one column of a letter of this likeness q is worth: the share of the relief's variance that it explains, less 0.3. */
export const shareExplained = (q: number): number => q * q - leastShare;

/**
 * The same as a likelihood: ln of what the letter leaves unexplained, taken away (strokes and ground normally distributed about it),
 * so that a letter which fits closely tells more than two that fit half.
 */
export const likelihoodExplained = (q: number): number => -Math.log(1 - Math.min(q * q, closest)) - leastShare;

/** No letter is likelier than this: engraved ones are no copies of a skeleton. */
const closest = 0.95;

/**
 * The course of letters that explains most of a strip: letters of a set side by side without overlap, and bare ground
 * between them. A letter w columns wide is worth w times `worthOf` q, its normalised correlation with the relief. S(c) = max(S(c − 1), max over letters of S(c − w) + worth) over
 * columns (dynamic programming), read back from the end. Gives the worth at each column, 0 on bare ground, NaN without
 * data; that of a letter is spread evenly over its columns.
 *
 * Unlike the best likeness at each column it lets no letter stand on parts of two others. On 40 legends rubbed by 60 % a
 * stretch of five letters was told from the same upside down in 94 of 100 against 90, of eight in 98 against 94.
 */
export function letterCourse(
  picture: HeightGrid,
  letters: readonly Template[],
  worthOf: (q: number) => number = shareExplained,
): Float64Array {
  const { width } = picture;
  const likeness = letters.map((letter) => ({ wide: letter.width - 2 * margin + 2, at: likenessOf(picture, letter) }));
  const sum = new Float64Array(width + 1);
  const from = new Int32Array(width + 1).fill(-1);
  for (let c = 1; c <= width; c++) {
    sum[c] = sum[c - 1];
    for (const { wide, at } of likeness) {
      const q = at[c - wide];
      if (!(q > 0)) continue;
      const worth = sum[c - wide] + wide * worthOf(q);
      if (worth > sum[c]) {
        sum[c] = worth;
        from[c] = c - wide;
      }
    }
  }
  const worth = new Float64Array(width);
  for (let c = width; c > 0; ) {
    const start = from[c];
    if (start >= 0) worth.fill((sum[c] - sum[start]) / (c - start), start, c);
    c = start >= 0 ? start : c - 1;
  }
  return worth.map((value, c) => (hasData(picture, c) ? value : Number.NaN));
}

function likenessOf(picture: HeightGrid, letter: Template): Float64Array {
  const count = Math.max(0, picture.width - letter.width + 1);
  return Float64Array.from({ length: count }, (_, c) => correlation(picture, letter, c));
}

/** At least half of the rows of a letter have data. */
function hasData({ width, height, mask }: HeightGrid, column: number): boolean {
  const rows = height - 2 * margin;
  let count = 0;
  for (let r = margin; r < margin + rows; r++) count += mask[r * width + column];
  return count >= rows / 2;
}
