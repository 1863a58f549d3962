import type { LossField } from '../relief/loss.ts';
import type { WearRelief } from '../relief/relief.ts';
import type { RecutLetter } from './letters.ts';

export const overLevelDefaults = {
  /** Cells count that stand over this share of what stands there. */
  standing: 0.3,
  /** Levels that are tried. */
  levels: 40,
};

/** A level that leaves less than this, mm², accounts for all. */
const exactMm2 = 1e-9;

/**
 * How much better a level than a share accounts for what a letter stands higher on one face: with h its heights there and o those of the other face,
 *
 *   min over a of Σ (o − a h)² / min over L of Σ (o − min(h, L))².
 *
 * What is filled, clogged, rubbed or pressed on the other face ends at a level, and so does what dirt or a bubble stands over; a letter cut again is the same
 * strokes, higher by a share. `cells`: of the letter; `ownMm`: height of what stands there.
 */
export function shareOverLevel(
  { difference }: WearRelief,
  loss: LossField,
  cells: readonly number[],
  carriedBy: RecutLetter['carriedBy'],
  ownMm: number,
  { standing, levels } = overLevelDefaults,
): number {
  const [h, sign] = carriedBy === 'subject' ? [loss.subjectHeight, 1] : [loss.height, -1];
  const seen = cells.filter((i) => h[i] > standing * ownMm && !Number.isNaN(difference[i]));
  const own = Float64Array.from(seen, (i) => h[i]);
  const other = Float64Array.from(seen, (i) => h[i] - sign * difference[i]);
  const left = (made: (height: number) => number): number =>
    own.reduce((sum, height, k) => sum + (other[k] - made(height)) ** 2, 0);
  const square = own.reduce((sum, height) => sum + height * height, 0);
  const share = own.reduce((sum, height, k) => sum + height * other[k], 0) / square;
  const top = Math.max(...own);
  const byLevel = Array.from({ length: levels }, (_, k) =>
    left((height) => Math.min(height, ((k + 1) * top) / levels)),
  );
  return left((height) => share * height) / Math.max(exactMm2, Math.min(...byLevel));
}
