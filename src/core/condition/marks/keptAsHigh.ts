import { distanceTransform, median } from '../../geometry/index.ts';
import type { LossField } from '../relief/loss.ts';
import type { WearRelief } from '../relief/relief.ts';

export const keptAsHighDefaults = {
  /** What stands as high is looked for between so far from the mark's cells and so far, mm: nearer it is the mark itself. */
  nearMm: 0.9,
  farMm: 4,
  /** Of the height that the other face lacks there these places have so much, at least, and keep so much of it. */
  asHigh: 0.5,
  leastKept: 0.5,
};

/** A mark's cells, and the face that stands higher there. */
interface HighMark {
  readonly cells: ArrayLike<number>;
  readonly carriedBy: 'reference' | 'subject';
}

/**
 * What the other face keeps of what stands as high as a mark about it: with h the heights over the ground of the face that carries it, d how much these exceed
 * the other's, H and D their medians over the mark, so that the other face shows the level H − D there, over the places with h > H − D / 2
 *
 *   kept = Σ max(0, min(h − d, H) − (H − D)) / Σ (min(h, H) − (H − D)).
 *
 * What rubs or presses a mark down to a level takes with it what else stands above that level; forms higher than the mark count up to its own height
 * alone. 1 where nothing about it stands as high, 0 where the carrier does not stand higher at all.
 */
export function keptAsHigh(
  { reference, difference, image }: WearRelief,
  loss: LossField,
  { cells, carriedBy }: HighMark,
  { nearMm, farMm, asHigh }: typeof keptAsHighDefaults = keptAsHighDefaults,
): number {
  const [h, sign] = carriedBy === 'subject' ? [loss.subjectHeight, 1] : [loss.height, -1];
  const known = Array.from(cells).filter((i) => !Number.isNaN(difference[i]));
  if (known.length === 0) return 1;
  const top = median(known.map((i) => h[i]));
  const lacks = median(known.map((i) => sign * difference[i]));
  if (!(lacks > 0)) return 0;
  const level = top - lacks;
  const elsewhere = new Uint8Array(h.length).fill(1);
  for (const i of known) elsewhere[i] = 0;
  const away = distanceTransform(elsewhere, reference.width);
  const [near, far] = [nearMm / reference.pitch, farMm / reference.pitch];
  let [all, kept] = [0, 0];
  for (let i = 0; i < h.length; i++) {
    if (!(image[i] && away[i] > near && away[i] <= far && h[i] > level + asHigh * lacks)) continue;
    if (Number.isNaN(difference[i])) continue;
    all += Math.min(h[i], top) - level;
    kept += Math.max(0, Math.min(h[i] - sign * difference[i], top) - level);
  }
  return all > 0 ? kept / all : 1;
}

/** Whether the other face would show a mark that stands so high: it keeps what else does. */
export const wouldShow = (
  relief: WearRelief,
  loss: LossField,
  mark: HighMark,
  options: typeof keptAsHighDefaults = keptAsHighDefaults,
): boolean => keptAsHigh(relief, loss, mark, options) >= options.leastKept;
