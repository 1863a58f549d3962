import { xOf, yOf } from '../geometry/index.ts';
import type { Face } from './types.ts';

/** The longer side of a face's outline, mm (the file's own unit before the unit is settled). */
export const longSide = ({ outline }: Pick<Face, 'outline'>): number => Math.max(outline.widthMm, outline.heightMm);

/** The box of all that was scanned of a face, as it stands upright, mm: the piece, whatever its outline is like. */
export function pieceSize({ relief }: Pick<Face, 'relief'>): { readonly widthMm: number; readonly heightMm: number } {
  const { width, mask, pitch } = relief;
  let [left, right, first, last] = [width, -1, -1, -1];
  for (let i = 0; i < mask.length; i++) {
    if (!mask[i]) continue;
    const column = i % width;
    left = Math.min(left, column);
    right = Math.max(right, column);
    last = Math.floor(i / width);
    if (first < 0) first = last;
  }
  if (right < 0) return { widthMm: 0, heightMm: 0 };
  // Half a cell lies beyond the middle of each outermost one.
  return {
    widthMm: xOf(relief, right) - xOf(relief, left) + pitch,
    heightMm: yOf(relief, first) - yOf(relief, last) + pitch,
  };
}
