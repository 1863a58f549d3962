import type { Band } from '../../design/index.ts';
import type { HeightGrid } from '../../geometry/index.ts';
import { type FacingDoubt, facingOfArcs } from './facingArcs.ts';
import { type CrossFound, crossDeg, findCross } from './initialCross.ts';
import { type SenseOfLetters, senseOfLetters } from './letterSense.ts';
import type { FacingArc } from './pieces.ts';
import { clockDeg, type Strip, type UnrollOptions, unroll } from './unroll.ts';
import { wholeFrom } from './wholeFrom.ts';

export interface ReadableOptions extends UnrollOptions {
  /** Begin at the initial cross where one is seen, else, on a broken object, where the legend is whole; else at `startDeg`. */
  readonly startAtCross?: boolean;
}

/** Why a strip begins where it does. */
export type StripStart = 'cross' | 'whole' | 'arc' | 'top' | 'stated';

export interface ReadableStrip {
  readonly strip: Strip;
  /** How the letters stand on a strip whose feet point to the centre. */
  readonly letters: SenseOfLetters;
  /** Arcs by the way their letters face, clockwise; one where all face one way. */
  readonly arcs: readonly FacingArc[];
  /** What is doubtful about the arcs; nothing where they were stated. */
  readonly facingDoubts: readonly FacingDoubt[];
  /** The initial cross, if one is seen, and its direction, degrees clockwise from 12 o'clock. */
  readonly cross: (CrossFound & { readonly deg: number }) | null;
  /** How it was unrolled: what lays another object's strip beside it. */
  readonly facing: Strip['facing'];
  readonly startDeg: number;
  readonly startsAt: StripStart;
}

/**
 * A strip that reads from left to right: which way the letters face is told from the letters themselves, arc by arc, unless
 * stated. Facing the other way is a turn of the strip (it then runs against the clock); a retrograde legend is only flagged.
 */
export function readableStrip(relief: HeightGrid, band: Band, options: ReadableOptions = {}): ReadableStrip {
  const { startAtCross = true, ...plain } = options;
  // Overlapped by more than a letter, so that a cross at the seam is seen whole.
  const overlapMm = 1.3 * (band.lettersInnerMm - band.lettersOuterMm);
  const whole = { ...plain, arcs: undefined, lengthMm: undefined, facing: 'inward', startDeg: 0 } as const;
  const round = unroll(relief, band, { ...whole, overlapMm });
  const letters = senseOfLetters(round);
  const { arcs, doubts } = plain.arcs ? { arcs: plain.arcs, doubts: [] } : arcsOf(round, letters, options.facing);
  const facing = arcs[0].facing;
  const found = findCross(round);
  const cross = found && { ...found, deg: placeDeg(round, found.column) };
  const start = startOf(round, arcs, found, startAtCross, options.startDeg);
  const strip = unroll(relief, band, { ...plain, facing, arcs, startDeg: start.deg });
  return { strip, letters, arcs, facingDoubts: doubts, cross, facing, startDeg: start.deg, startsAt: start.at };
}

/** As stated; else as the letters tell, inward where they do not. Of one arc, `letters` says how sure its sense is. */
function arcsOf(
  round: Strip,
  letters: SenseOfLetters,
  stated: Strip['facing'] | undefined,
): { readonly arcs: readonly FacingArc[]; readonly doubts: readonly FacingDoubt[] } {
  const one = (facing: Strip['facing'], doubts: readonly FacingDoubt[] = []) => ({
    arcs: [{ fromDeg: 0, toDeg: 360, facing }],
    doubts: doubts.filter((doubt) => doubt === 'cutUnsure'),
  });
  if (stated) return one(stated);
  const outward = letters.sense === 'upsideDown' || letters.sense === 'mirroredUpsideDown';
  if (letters.decided && letters.sense.startsWith('mirrored')) return one(outward ? 'outward' : 'inward');
  const { arcs, doubts } = facingOfArcs(round);
  return arcs.length > 1 ? { arcs, doubts } : one(letters.decided && outward ? 'outward' : 'inward', doubts);
}

function startOf(
  round: Strip,
  arcs: readonly FacingArc[],
  cross: CrossFound | null,
  atCross: boolean,
  statedDeg: number | undefined,
): { readonly deg: number; readonly at: StripStart } {
  if (!atCross && statedDeg !== undefined) return { deg: statedDeg, at: 'stated' };
  if (atCross && cross)
    return { deg: crossDeg(round, cross, facingAt(arcs, placeDeg(round, cross.column))), at: 'cross' };
  const broken = wholeFrom(round, arcs[0].facing);
  if (broken !== null && arcs.length === 1) return { deg: broken, at: 'whole' };
  if (arcs.length > 1) return { deg: longest(arcs.filter((arc) => arc.facing === 'inward')).fromDeg, at: 'arc' };
  return statedDeg === undefined ? { deg: 0, at: 'top' } : { deg: statedDeg, at: 'stated' };
}

const spanDeg = ({ fromDeg, toDeg }: FacingArc): number => (toDeg - fromDeg + 360) % 360 || 360;

const longest = (arcs: readonly FacingArc[]): FacingArc => arcs.reduce((p, q) => (spanDeg(q) > spanDeg(p) ? q : p));

/** Which way the letters face in a direction from the band's centre. */
const facingAt = (arcs: readonly FacingArc[], deg: number): FacingArc['facing'] =>
  (arcs.find((arc) => (deg - arc.fromDeg + 360) % 360 < spanDeg(arc)) ?? arcs[0]).facing;

export const placeDeg = ({ band, x, y }: Strip, column: number): number => {
  const k = Math.max(0, Math.min(x.length - 1, Math.round(column)));
  return clockDeg(x[k] - band.cx, y[k] - band.cy);
};
