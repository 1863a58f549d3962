import type { HeightGrid } from '../geometry/index.ts';
import { signalOf } from './bandPassed.ts';
import { searchDefaults } from './search.ts';

export const carriedDefaults = {
  /** Relief weaker than this share of what the strongest tenth of the face has counts as weak as it is: the bare field round a motif carries nothing. */
  floor: { share: 0.25, of: 0.9 },
};

/**
 * The share of a face that carries what the search compares: (Σ v²)² / (n Σ v⁴) over its n cells, v the relief in the fine band, evened out and clipped.
 * A third where v is normal, less where most of the face is bare, and least where a few pits, chips or crumbs stand out of everything round them
 * (participation ratio: Bell and Dean 1970).
 */
export function carriedShare(detail: HeightGrid, sizeMm: number, { floor } = carriedDefaults): number {
  const { fineAcross, fineFrom, fineTo } = searchDefaults;
  const pitch = sizeMm / fineAcross;
  const cells = Math.ceil((1.05 * Math.max(detail.width, detail.height) * detail.pitch) / pitch);
  const { value, mask } = signalOf(detail, cells, pitch, fineFrom * sizeMm, fineTo * sizeMm, floor);
  let [n, squares, fourths] = [0, 0, 0];
  for (let i = 0; i < value.length; i++) {
    if (!mask[i]) continue;
    const square = value[i] ** 2;
    n++;
    squares += square;
    fourths += square ** 2;
  }
  return squares ** 2 / (n * fourths || 1);
}
