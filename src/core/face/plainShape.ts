import { climb, median } from '../geometry/index.ts';
import { type PlainShape, type Radius, radii, roundWithin } from './outline.ts';
import type { OutlineShape } from './types.ts';

/** A plain shape and its size, mm. */
export interface SizedShape {
  readonly shape: OutlineShape;
  readonly widthMm: number;
  readonly heightMm: number;
}

type Place = readonly [x: number, y: number];

/**
 * The shape near `guess`, upright about the middle, that goes through most of the places: by least absolute misfit along the radius, of
 * which no place counts more than thrice what is usual, so that a chip or a break does not matter. A pointed oval whose points are worn
 * looks like an oval to the outline, and a round seal like either: both are tried.
 */
export function plainShape(guess: SizedShape, places: readonly Place[]): SizedShape {
  if (guess.shape !== 'oval' && guess.shape !== 'pointedOval') return fitted(guess, places).sized;
  const [oval, pointed] = (['oval', 'pointedOval'] as const).map((shape) => fitted({ ...guess, shape }, places));
  const best = pointed.misfit < leastBetter * oval.misfit ? pointed.sized : oval.sized;
  // With equal axes both are a circle, as they are for the outline (`findOutline`).
  return Math.abs(best.widthMm / best.heightMm - 1) < roundWithin
    ? fitted({ ...best, shape: 'round' }, places).sized
    : best;
}

/** The shape of more parts must fit so much better than the oval. */
const leastBetter = 0.7;

/** Middle, half the height, width by height, turn in radians. */
type Parts = readonly number[];

function fitted({ shape, widthMm, heightMm }: SizedShape, places: readonly Place[]) {
  const off = misfitOf(shape, places);
  const half = heightMm / 2;
  const [step, leaning] = [half / 30, 0.03];
  const first = climb(
    (p) => -off(p),
    [0, 0, half, widthMm / heightMm, 0],
    [step, step, -2 * step, leaning, leaning],
    250,
  );
  const { at, value } = climb(
    (p) => -off(p),
    first.at,
    [step, step, step, leaning, leaning].map((side) => side / 4),
    150,
  );
  const sized: SizedShape = { shape, widthMm: 2 * at[2] * (shape === 'round' ? 1 : at[3]), heightMm: 2 * at[2] };
  return { sized, misfit: -value };
}

/** Of each place how far it lies off the shape about (cx, cy), turned by (c, s). */
function writeMisfits(
  places: readonly Place[],
  radius: Radius,
  cx: number,
  cy: number,
  half: number,
  aspect: number,
  c: number,
  s: number,
  misfits: Float64Array,
): void {
  for (let i = 0; i < places.length; i++) {
    const x = places[i][0] - cx;
    const y = places[i][1] - cy;
    const r = Math.hypot(x, y);
    misfits[i] = Math.abs(r - half * radius((c * x + s * y) / r, (c * y - s * x) / r, aspect));
  }
}

/** Mean misfit of the places, mm. */
function misfitOf(shape: OutlineShape, places: readonly Place[]): (parts: Parts) => number {
  const round = shape === 'round';
  const plain: PlainShape = round || shape === 'irregular' ? 'oval' : shape;
  const misfits = new Float64Array(places.length);
  return ([cx, cy, half, aspect, turn]) => {
    writeMisfits(places, radii[plain], cx, cy, half, round ? 1 : aspect, Math.cos(turn), Math.sin(turn), misfits);
    const most = 3 * median(misfits);
    return misfits.reduce((sum, misfit) => sum + Math.min(misfit, most), 0) / places.length;
  };
}
