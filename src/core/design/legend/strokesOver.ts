import type { HeightGrid } from '../../geometry/index.ts';
import { ringMargin, ringRows } from './ringPicture.ts';

/** Length that is looked at together, in letters' heights, and correlation from which on strokes run on. */
const windowLetters = 3;
const runsOn = 0.4;

/**
 * The longest arc, as a share of the round, along which strokes run on over an edge of a ring laid out straight (`ringPicture`): over
 * each three letters' heights the last row of the letters is correlated with the second beyond, Σ ab / √(Σ a² Σ b²). A ring that cuts the
 * tall letters of one of its arcs has a long one; over a border line or a gap there is none.
 */
export function arcOver(picture: HeightGrid, edge: 'outer' | 'inner'): number {
  const row = edge === 'outer' ? ringMargin : ringMargin + ringRows - 1;
  const beyond = edge === 'outer' ? row - 2 : row + 2;
  const over: boolean[] = [];
  for (let from = 0; from < picture.width; from += ringRows) over.push(likeness(picture, row, beyond, from) > runsOn);
  let [run, longest] = [0, 0];
  // Twice round, since an arc may hold the place where the ring was cut.
  for (const on of [...over, ...over]) {
    run = on ? run + 1 : 0;
    longest = Math.max(longest, run);
  }
  return over.length > 0 ? Math.min(1, longest / over.length) : 0;
}

/** Correlation of two rows over a window that begins at a column; 0 where less than half of it was scanned. */
function likeness({ width, z, mask }: HeightGrid, row: number, beyond: number, from: number): number {
  const columns = windowLetters * ringRows;
  let [ab, aa, bb, count] = [0, 0, 0, 0];
  for (let k = 0; k < columns; k++) {
    const column = (from + k) % width;
    const [i, j] = [row * width + column, beyond * width + column];
    if (!mask[i] || !mask[j]) continue;
    ab += z[i] * z[j];
    aa += z[i] ** 2;
    bb += z[j] ** 2;
    count++;
  }
  return count > columns / 2 ? ab / Math.sqrt(aa * bb || 1) : 0;
}
