import { climb, median } from '../geometry/index.ts';
import { type Radius, radii, roundWithin } from './outline.ts';
import type { OutlineShape } from './types.ts';

/** What an image's edge can be besides: a lozenge is measured along its diagonals; polygonal is a rectangle whose corners are cut off at 45°. */
export type ImageShape = OutlineShape | 'lozenge' | 'polygonal';

/** A plain shape and its size, mm. */
export interface SizedShape {
  readonly shape: ImageShape;
  readonly widthMm: number;
  readonly heightMm: number;
}

type Place = readonly [x: number, y: number];

/**
 * The shape near `guess`, upright about the middle, that goes through most of the places: by least absolute misfit along the radius, of
 * which no place counts more than thrice what is usual or a chip is deep, so that a chip or a break does not matter. A pointed oval whose points are worn
 * looks like an oval to the outline, and a round seal like either: both are tried. The outline knows of no lozenge and of no corners that are
 * cut off, and takes either for a square.
 */
export function plainShape(guess: SizedShape, places: readonly Place[]): SizedShape {
  if (guess.shape === 'square') return angular(guess, places);
  if (guess.shape !== 'oval' && guess.shape !== 'pointedOval') return fitted(guess, places).sized;
  const [oval, pointed] = (['oval', 'pointedOval'] as const).map((shape) => fitted({ ...guess, shape }, places));
  const best = pointed.misfit < leastBetter * oval.misfit ? pointed.sized : oval.sized;
  // With equal axes both are a circle, as they are for the outline (`findOutline`).
  return Math.abs(best.widthMm / best.heightMm - 1) < roundWithin
    ? fitted({ ...best, shape: 'round' }, places).sized
    : best;
}

/** The shape of more parts must fit so much better than the plainer one. */
const leastBetter = 0.7;

/** What lies off by less is no chip but where the shape's own parts, as the points of an oval, are told from, mm. */
const chipMm = 0.3;

/** Corners are cut off by so much of the shorter half of the sides; a regular octagon's by 0.59. */
const cuts = Array.from({ length: 11 }, (_, k) => 0.1 + 0.05 * k);

/** A lozenge lies at any turn to the rectangle that it was taken for: turns to begin with, radians. */
const lozengeTurns = Array.from({ length: 12 }, (_, k) => (k * Math.PI) / 12);

/** A lozenge or a rectangle without corners, where that fits clearly better than a rectangle; a lozenge with equal axes is a square. */
function angular(guess: SizedShape, places: readonly Place[]): SizedShape {
  const square = fitted(guess, places);
  const heightMm = 2 * places.reduce((most, [x, y]) => Math.max(most, Math.hypot(x, y)), 0);
  const long: SizedShape = { shape: 'lozenge', heightMm, widthMm: 0.75 * heightMm };
  const lozenge = least(lozengeTurns.map((turn) => fitted(long, places, { turn })));
  const { sized } = lozenge;
  if (lozenge.misfit < leastBetter * square.misfit)
    return Math.abs(sized.widthMm / sized.heightMm - 1) < roundWithin ? square.sized : sized;
  // Few places lie at corners: what forgives chips forgives these too, so that here every place counts as it is.
  const all = { mostUsual: Number.POSITIVE_INFINITY };
  const shape = 'polygonal';
  const polygonal = least(cuts.map((cut) => fitted({ ...guess, shape }, places, { radius: cornersCut(cut), ...all })));
  return polygonal.misfit < leastBetter * fitted(guess, places, all).misfit ? polygonal.sized : square.sized;
}

const least = (fits: readonly Fitted[]): Fitted => fits.reduce((p, q) => (q.misfit < p.misfit ? q : p));

/** Radii of the shapes that have no further part; a round one is an oval with equal axes, and so is taken what has no shape. */
const radiiOf: Readonly<Record<Exclude<ImageShape, 'polygonal'>, Radius>> = {
  ...radii,
  round: radii.oval,
  irregular: radii.oval,
  lozenge: (c, s, aspect) => 1 / (Math.abs(c) / aspect + Math.abs(s)),
};

/** A rectangle without its corners: |x| + |y| ≤ aspect + 1 − cut · the shorter of 1 and aspect. */
const cornersCut =
  (cut: number): Radius =>
  (c, s, aspect) =>
    Math.min(radii.square(c, s, aspect), (aspect + 1 - cut * Math.min(1, aspect)) / (Math.abs(c) + Math.abs(s)));

/** Middle, half the height, width by height, turn in radians. */
type Parts = readonly number[];

/** A shape as it fits best, and its misfit, mm. */
interface Fitted {
  readonly sized: SizedShape;
  readonly misfit: number;
}

function fitted(
  { shape, widthMm, heightMm }: SizedShape,
  places: readonly Place[],
  { radius = shape === 'polygonal' ? radii.square : radiiOf[shape], turn = 0, mostUsual = 3 } = {},
): Fitted {
  const off = misfitOf(radius, shape === 'round', places, mostUsual);
  const half = heightMm / 2;
  const [step, leaning] = [half / 30, 0.03];
  const first = climb(
    (p) => -off(p),
    [0, 0, half, widthMm / heightMm, turn],
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

/** Mean misfit of the places, of which none counts more than so many times the usual one or a chip, mm. */
function misfitOf(
  radius: Radius,
  round: boolean,
  places: readonly Place[],
  mostUsual: number,
): (parts: Parts) => number {
  const misfits = new Float64Array(places.length);
  return ([cx, cy, half, aspect, turn]) => {
    writeMisfits(places, radius, cx, cy, half, round ? 1 : aspect, Math.cos(turn), Math.sin(turn), misfits);
    const most = Math.max(chipMm, mostUsual * median(misfits));
    return misfits.reduce((sum, misfit) => sum + Math.min(misfit, most), 0) / places.length;
  };
}
