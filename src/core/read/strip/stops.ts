import { margin, rows } from '../../design/index.ts';
import type { HeightGrid } from '../../geometry/index.ts';

/**
 * How much wider than the ring's own middling gap the gap at each bare place is, in letters' heights, 0 to `widest`. A gap reaches as
 * far as tops and feet are bare, so that pellets, colons and small crosses lie within it: engravers part words by these or
 * by mere room, and change a legend's facing there.
 */
export function stopsAt(picture: HeightGrid, count: number, places: readonly number[]): number[] {
  const bare = bareColumns(picture, count);
  const gaps = places.map((place) => gapAt(bare, place) / rows);
  const middling = [...gaps].sort((p, q) => p - q)[gaps.length >> 1] ?? 0;
  return gaps.map((gap) => Math.max(0, Math.min(widest, gap - middling)));
}

/** A gap wider than others by this much of a letter's height is a stop. */
export const widest = 0.3;

/** Share of the picture's root mean square height under which a column's tops or feet are bare. */
const bareShare = 0.25;

/** Rows of tops, and of feet. */
const endRows = 6;

/** A stop may lie so many columns beside the barest place. */
const besideColumns = 4;

/** Columns of one round with neither tops nor feet of letters; such without data count as bare. */
function bareColumns({ width, z, mask }: HeightGrid, count: number): boolean[] {
  const rms = Math.sqrt(z.reduce((sum, value) => sum + value * value, 0) / z.length);
  const heightOf = (column: number, first: number): number => {
    let [sum, n] = [0, 0];
    for (let r = first; r < first + endRows; r++) {
      const i = r * width + column;
      if (column >= width || !mask[i]) continue;
      sum += Math.max(0, z[i]);
      n++;
    }
    return n > 0 ? sum / n : 0;
  };
  const ends = [margin, margin + rows - endRows];
  return Array.from({ length: count }, (_, c) => ends.every((first) => heightOf(c, first) <= bareShare * rms));
}

/** Columns of the widest bare run about a place. */
function gapAt(bare: readonly boolean[], place: number): number {
  const n = bare.length;
  const isBare = (c: number): boolean => bare[(c + n) % n];
  let most = 0;
  for (let c = place - besideColumns; c <= place + besideColumns; c++) {
    if (!isBare(c)) continue;
    let [from, to] = [c, c];
    while (to - from < n && isBare(from - 1)) from--;
    while (to - from < n && isBare(to + 1)) to++;
    most = Math.max(most, to - from + 1);
  }
  return most;
}
