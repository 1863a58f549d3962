import { type Band, findLegendBand } from '../../src/core/design/index.ts';
import type { HeightGrid } from '../../src/core/geometry/index.ts';
import {
  applyLook,
  faintLegendLook,
  type LitPicture,
  light,
  readableStrip,
  type Strip,
} from '../../src/core/read/index.ts';
import type { LetterRows } from './referee.ts';
import type { Point, WornSeal } from './wornSeals.ts';

/** The automatic strip of a worn seal and what it should read. */
export interface WornStrip {
  readonly seal: WornSeal;
  readonly band: Band;
  readonly strip: Strip;
  /** The legend's letters, from the first one after the strip's start. */
  readonly truth: string;
  /** Of each of those letters, the column of the strip that passes nearest. */
  readonly columns: readonly number[];
}

export function wornStrip(seal: WornSeal): WornStrip | null {
  const { face } = seal.prepared;
  const band = findLegendBand(face);
  if (!band) return null;
  const { strip } = readableStrip(face.relief, band);
  return { seal, band, strip, ...readingOrder(seal, strip) };
}

/** The order of reading is the legend's own: a strip that runs the wrong way does not make it right. */
export function readingOrder({ letters }: WornSeal, strip: Strip): Pick<WornStrip, 'truth' | 'columns'> {
  const at = letters.map((letter) => nearestColumn(strip, letter.at));
  const first = at.indexOf(Math.min(...at));
  const order = letters.map((_, i) => (first + i) % letters.length);
  return { truth: order.map((i) => letters[i].char).join(''), columns: order.map((i) => at[i]) };
}

function nearestColumn({ x, y }: Strip, [px, py]: Point): number {
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let c = 0; c < x.length; c++) {
    const off = (x[c] - px) ** 2 + (y[c] - py) ** 2;
    if (off < least) {
      least = off;
      best = c;
    }
  }
  return best;
}

/** Rows between tops and feet. */
export function letterRows({ band, grid }: Strip): LetterRows {
  const half = (band.lettersInnerMm - band.lettersOuterMm) / 2;
  return { from: (grid.top - half) / grid.pitch, to: (grid.top + half) / grid.pitch };
}

/** The plain upper-left rendering that ours is held against. */
export const plainPicture = (grid: HeightGrid): LitPicture =>
  light(grid, [{ azimuthDeg: 315, heightDeg: 25 }], { emptyGrey: 110 });

export const faintPicture = ({ band, grid }: Strip): LitPicture =>
  applyLook(grid, faintLegendLook(band.lettersInnerMm - band.lettersOuterMm));
