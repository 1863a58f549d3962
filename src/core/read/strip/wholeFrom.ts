import { clockDeg, type Strip } from './unroll.ts';

/** A break is missing where less than half of the letters' height has data, over at least one letter's height of length. */
const leastShare = 0.5;

/**
 * Where the legend of a broken object is whole again: the direction, degrees clockwise from 12 o'clock, of the first place after
 * the longest stretch without letters' data, in the direction of reading (clockwise with feet inward, else against the clock). Null where no letter's height of length is missing.
 * `round`: the whole ring, unrolled with feet inward.
 */
export function wholeFrom(round: Strip, facing: 'inward' | 'outward'): number | null {
  const { band, grid, x, y } = round;
  const letterMm = band.lettersInnerMm - band.lettersOuterMm;
  const n = Math.min(grid.width, Math.round(round.roundMm / grid.pitch));
  const missing = Array.from({ length: n }, (_, c) => shareAt(round, c, letterMm) < leastShare);
  const start = missing.indexOf(false);
  if (start < 0) return null;
  const way = facing === 'inward' ? 1 : -1;
  let [longest, end, run] = [0, 0, 0];
  for (let k = 1; k <= n; k++) {
    const c = (((start + way * k) % n) + n) % n;
    if (missing[c]) run++;
    else {
      if (run > longest) [longest, end] = [run, c];
      run = 0;
    }
  }
  if (longest * grid.pitch < letterMm) return null;
  return clockDeg(x[end] - band.cx, y[end] - band.cy);
}

/** Share of a column's cells between tops and feet that have data. */
function shareAt({ grid }: Strip, column: number, letterMm: number): number {
  const first = Math.max(0, Math.round((grid.top - letterMm / 2) / grid.pitch));
  const last = Math.min(grid.height - 1, Math.round((grid.top + letterMm / 2) / grid.pitch));
  let count = 0;
  for (let r = first; r <= last; r++) count += grid.mask[r * grid.width + column];
  return count / Math.max(1, last - first + 1);
}
