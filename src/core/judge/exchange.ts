import type { Face } from '../face/index.ts';
import { type FitModel, faceMotion, unbend } from '../fit/index.ts';
import { apply, invert } from '../geometry/index.ts';
import type { MeasuredPlaces } from './measure.ts';
import type { Patch } from './patches.ts';
import type { Weighed } from './rivals.ts';
import type { Cell } from './types.ts';

type Covariance = Patch['covariance'];

/** What the plane of the one face is on the other: a place, and the linear part [[a, b], [c, d]] of the motion there. */
interface PlaneMap {
  place(x: number, y: number): [number, number];
  readonly linear: readonly [a: number, b: number, c: number, d: number];
  readonly scale: number;
  /** −1 where the face is turned over: turns go the other way. */
  readonly handed: 1 | -1;
}

/**
 * Places that were measured on one face of an aligned pair, told on the other: x ↦ T(x + d), d ↦ −L d, Σ ↦ L Σ Lᵀ, with T
 * the motion of the plane under `model` (reference ← subject) and L its linear part. Reliefs change places. Both orders of two files are so
 * measured once, on one grid.
 */
export function placesExchanged(
  reference: Face,
  subject: Face,
  model: FitModel,
  places: MeasuredPlaces,
  weighed: Weighed | null,
): { places: MeasuredPlaces; weighed: Weighed | null } {
  const map = planeMap(reference, subject, model);
  const patch = <P extends Patch>(p: P): P => ({
    ...p,
    ...moved(map, p),
    covariance: turnedCovariance(map, p.covariance),
    relief: [p.relief[1] * map.scale, p.relief[0] * map.scale],
  });
  const cell = (c: Cell): Cell => ({ ...c, ...moved(map, c), offsetMm: c.offsetMm * map.scale });
  const told: MeasuredPlaces = {
    ...places,
    seen: places.seen.map(patch),
    absent: places.absent.map(patch),
    tiles: {
      ...places.tiles,
      cells: places.tiles.cells.map(cell),
      sideMm: places.tiles.sideMm * map.scale,
    },
    sizeMm: places.sizeMm * map.scale,
    middle: map.place(...places.middle),
    spacingMm: places.spacingMm * map.scale,
    windowMm2: places.windowMm2 * map.scale ** 2,
  };
  if (!weighed) return { places: told, weighed };
  const left = weighed.best.left.slice();
  for (let i = 0; i < left.length; i += 2) left.set(back(map, left[i], left[i + 1]), i);
  return { places: told, weighed: { ...weighed, best: { ...weighed.best, left } } };
}

function planeMap(reference: Face, subject: Face, model: FitModel): PlaneMap {
  const motion = invert(faceMotion(reference, subject, model));
  const [a, b, , c, d] = motion.rotation.map((value) => value * motion.scale);
  return {
    place: (x, y) => {
      const [p, q] = apply(motion, [...unbend(model, x, y), 0]);
      return [p, q];
    },
    linear: [a, b, c, d],
    scale: motion.scale,
    handed: a * d - b * c < 0 ? -1 : 1,
  };
}

type Placed = Pick<Patch, 'x' | 'y' | 'dx' | 'dy' | 'turnDeg'>;

function moved(map: PlaneMap, { x, y, dx, dy, turnDeg }: Placed): Placed {
  const [u, v] = map.place(x + dx, y + dy);
  const [du, dv] = back(map, dx, dy);
  return { x: u, y: v, dx: du, dy: dv, turnDeg: -map.handed * turnDeg };
}

/** −L d. */
const back = ({ linear: [a, b, c, d] }: PlaneMap, x: number, y: number): [number, number] => [
  -(a * x + b * y),
  -(c * x + d * y),
];

function turnedCovariance({ linear: [a, b, c, d] }: PlaneMap, [xx, xy, yy]: Covariance): Covariance {
  return [
    a * a * xx + 2 * a * b * xy + b * b * yy,
    a * c * xx + (a * d + b * c) * xy + b * d * yy,
    c * c * xx + 2 * c * d * xy + d * d * yy,
  ];
}
