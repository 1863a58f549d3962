import type { Band } from '../../design/index.ts';
import type { HeightGrid } from '../../geometry/index.ts';
import { type CrossFound, crossDeg, findCross } from './initialCross.ts';
import { type SenseOfLetters, senseOfLetters } from './letterSense.ts';
import { clockDeg, type Strip, type UnrollOptions, unroll } from './unroll.ts';

export interface ReadableOptions extends UnrollOptions {
  /** Begin at the initial cross where one is seen; else at `startDeg`. */
  readonly startAtCross?: boolean;
}

export interface ReadableStrip {
  readonly strip: Strip;
  /** How the letters stand on a strip whose feet point to the centre. */
  readonly letters: SenseOfLetters;
  /** The initial cross, if one is seen, and its direction, degrees clockwise from 12 o'clock. */
  readonly cross: (CrossFound & { readonly deg: number }) | null;
  /** How it was unrolled: what lays another object's strip beside it. */
  readonly facing: Strip['facing'];
  readonly startDeg: number;
  readonly caption: string;
}

/**
 * A strip that reads from left to right: which way the letters face is told from the letters themselves unless stated. Facing
 * the other way is a turn of the strip (it then runs against the clock); a retrograde legend is only flagged.
 */
export function readableStrip(relief: HeightGrid, band: Band, options: ReadableOptions = {}): ReadableStrip {
  const { startAtCross = true, ...plain } = options;
  // Overlapped by more than a letter, so that a cross at the seam is seen whole.
  const overlapMm = 1.3 * (band.lettersInnerMm - band.lettersOuterMm);
  const round = unroll(relief, band, { ...plain, facing: 'inward', lengthMm: undefined, startDeg: 0, overlapMm });
  const letters = senseOfLetters(round);
  const outward = letters.decided && (letters.sense === 'upsideDown' || letters.sense === 'mirroredUpsideDown');
  const facing = options.facing ?? (outward ? 'outward' : 'inward');
  const found = findCross(round);
  const cross = found && { ...found, deg: placeDeg(round, found.column) };
  const startDeg = startAtCross && found ? crossDeg(round, found, facing) : (options.startDeg ?? 0);
  const strip = unroll(relief, band, { ...plain, facing, startDeg });
  return { strip, letters, cross, facing, startDeg, caption: stripCaption(strip, letters, startDeg) };
}

/** What stands under a strip. */
export function stripCaption(strip: Strip, letters: SenseOfLetters, startDeg = 0): string {
  const { band, facing } = strip;
  const letterMm = band.lettersInnerMm - band.lettersOuterMm;
  const parts = [
    `Legend strip, ${facing === 'inward' ? 'clockwise, feet to the centre' : 'against the clock, feet to the rim'}`,
    `from ${Number(startDeg.toFixed(1))}° clockwise from 12 o'clock on the impression`,
    `letters ${letterMm.toFixed(1)} mm high`,
    band.sense === 'intaglio' ? 'matrix turned over to read as its impression' : 'read as it is',
  ];
  const retrograde = letters.decided && letters.sense.startsWith('mirrored');
  return `${parts.join('; ')}.${retrograde ? ` ${letters.words}` : ''}`;
}

const placeDeg = ({ band, x, y }: Strip, column: number): number => {
  const k = Math.max(0, Math.min(x.length - 1, Math.round(column)));
  return clockDeg(x[k] - band.cx, y[k] - band.cy);
};
