import { margin, rows } from '../../design/index.ts';
import type { HeightGrid } from '../../geometry/index.ts';

/** Standard deviation of the relief between tops and feet at each of `count` columns of a picture of letters. */
export function inkOf({ width, z, mask }: HeightGrid, count: number): Float64Array {
  return Float64Array.from({ length: count }, (_, c) => {
    let [sum, squares, n] = [0, 0, 0];
    for (let r = margin, i = margin * width + c; r < margin + rows; r++, i += width) {
      if (!mask[i] || c >= width) continue;
      sum += z[i];
      squares += z[i] * z[i];
      n++;
    }
    return n > 0 ? Math.sqrt(Math.max(0, squares / n - (sum / n) ** 2)) : 0;
  });
}

/** Columns of a closed ring whose quarter of a letter is barer than those within a third of a letter. */
export function barePlaces(ink: Float64Array): number[] {
  const n = ink.length;
  const at = (c: number): number => (c + n) % n;
  const averaged = ink.map((_, c) => {
    let sum = 0;
    for (let k = -averageReach; k <= averageReach; k++) sum += ink[at(c + k)];
    return sum;
  });
  return [...averaged.keys()].filter((c) => {
    for (let k = 1; k <= placeReach; k++)
      if (averaged[at(c - k)] <= averaged[c] || averaged[at(c + k)] < averaged[c]) return false;
    return true;
  });
}

const averageReach = Math.round(rows / 8);
const placeReach = Math.round(rows / 3);
