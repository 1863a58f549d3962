import { correlationAt } from '../../geometry/index.ts';
import type { LossField } from '../relief/loss.ts';
import type { WearRelief } from '../relief/relief.ts';
import type { RecutLetter } from './letters.ts';

/** A round window of the legend. */
export interface WindowPlace {
  readonly column: number;
  readonly row: number;
  /** Of its cells those that were scanned on both faces. */
  readonly seen: Int32Array;
  /** Correlation of the two faces' heights. */
  readonly alike: number;
}

/** What stands there, of the face that may carry the gain. */
export interface LetterWindow {
  readonly place: WindowPlace;
  /** Σ g h / Σ h² with g what that face stands higher and h its height over the ground; and the mean of h², mm². */
  readonly gain: number;
  readonly relief: number;
  /** Height of what stands, Σ h³ / Σ h², and of the other face there, mm. */
  readonly own: number;
  readonly other: number;
}

/** Windows along the band of which enough was scanned on both faces, row by row; `radius` in cells, `step` in radii. */
export function placesAlong(
  { reference, subject, image }: WearRelief,
  loss: LossField,
  band: Uint8Array,
  radius: number,
  options: { readonly step: number; readonly scanned: number },
): WindowPlace[] {
  const { width, height } = reference;
  const both = image.map((there, i) => (there && reference.mask[i] && subject.mask[i] ? 1 : 0));
  const disc = Int32Array.from(discOf(radius, width));
  const step = Math.max(1, Math.round(options.step * radius));
  const places: WindowPlace[] = [];
  const reach = Math.ceil(radius);
  for (let row = reach; row < height - reach; row += step)
    for (let column = reach; column < width - reach; column += step) {
      const cell = row * width + column;
      if (!band[cell]) continue;
      const seen = markedOf(disc, cell, both);
      if (seen.length < options.scanned * disc.length) continue;
      places.push({ column, row, seen, alike: correlationAt(seen, loss.height, loss.subjectHeight) ?? 0 });
    }
  return places;
}

/** Cells of the disc about `middle` that are marked. */
function markedOf(disc: Int32Array, middle: number, marked: Uint8Array): Int32Array {
  const cells = new Int32Array(disc.length);
  let count = 0;
  for (let k = 0; k < disc.length; k++) if (marked[middle + disc[k]]) cells[count++] = middle + disc[k];
  return cells.subarray(0, count);
}

/** Nothing where nothing stands. */
export function windowAt(
  place: WindowPlace,
  { difference }: WearRelief,
  loss: LossField,
  carriedBy: RecutLetter['carriedBy'],
): LetterWindow[] {
  const { seen } = place;
  const [own, other] = carriedBy === 'subject' ? [loss.subjectHeight, loss.height] : [loss.height, loss.subjectHeight];
  const sign = carriedBy === 'subject' ? 1 : -1;
  let [product, square, cube, there] = [0, 0, 0, 0];
  for (let k = 0; k < seen.length; k++) {
    const i = seen[k];
    const h = Math.max(0, own[i]);
    const hh = h * h;
    product += sign * difference[i] * h;
    square += hh;
    // A power would be a call each time.
    cube += hh * h;
    there += hh * other[i];
  }
  if (square === 0) return [];
  return [{ place, gain: product / square, relief: square / seen.length, own: cube / square, other: there / square }];
}

/** Offsets of the cells of a disc of that radius, cells, in a picture so wide. */
export function discOf(radius: number, width: number): number[] {
  const reach = Math.ceil(radius);
  const out: number[] = [];
  for (let dy = -reach; dy <= reach; dy++)
    for (let dx = -reach; dx <= reach; dx++) if (dx * dx + dy * dy <= radius * radius) out.push(dy * width + dx);
  return out;
}
