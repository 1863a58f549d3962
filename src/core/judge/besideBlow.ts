import { eigenSymmetric, type Vec2 } from '../geometry/index.ts';
import type { MeasuredPlaces } from './measure.ts';
import type { Place } from './patches.ts';
import { copyAlone, type Weighed } from './rivals.ts';

/** The flow was laid on places that are off by the blow; each round it is laid on what the last one left of them. */
const rounds = 4;

/**
 * log₁₀ of one matrix over a copy by hand beside a second blow: what each place is off along the rigid motion that explains most of it is laid to the
 * blows. Of a matrix struck twice a place lies at the first blow, at the second or between, so that next to nothing is left across; a copyist's
 * places are off to all sides.
 */
export function overCopyBesideBlow(places: MeasuredPlaces, { best, overCopy }: Weighed): number {
  let [seen, left, over] = [places.seen, best.left, overCopy];
  for (let round = 0; round < rounds; round++) {
    const off = places.seen.map(
      (place, i): Vec2 => [place.dx - seen[i].dx + left[2 * i], place.dy - seen[i].dy + left[2 * i + 1]],
    );
    seen = across(places, off);
    const alone = copyAlone({ ...places, seen });
    [left, over] = [alone.best.left, alone.overCopy];
  }
  return over;
}

/** The places, each moved by what it is off along the motion of all. */
function across(places: MeasuredPlaces, off: readonly Vec2[]): Place[] {
  const motion = motionAlong(places, off);
  return places.seen.map((place, i) => {
    const [ux, uy] = motion(place);
    const along = (off[i][0] * ux + off[i][1] * uy) / (ux * ux + uy * uy || 1);
    return { ...place, dx: place.dx - along * ux, dy: place.dy - along * uy };
  });
}

/**
 * The motion u(x) = (a − ω y, b + ω x) along which places are off by r: least Σ w (r × u)² / |r|², an eigenvector of 3 × 3. Every place has one vote,
 * its direction, with the weight w = |r|² / (|r|² + its own variance): one that lies nowhere near says no more than another.
 */
function motionAlong({ seen, middle: [mx, my], sizeMm }: MeasuredPlaces, off: readonly Vec2[]) {
  const unit = sizeMm / 4;
  const sums = new Float64Array(9);
  seen.forEach(({ x, y, covariance }, i) => {
    const [rx, ry] = off[i];
    const v = [-ry, rx, (rx * (x - mx) + ry * (y - my)) / unit];
    const weight = 1 / (rx * rx + ry * ry + covariance[0] + covariance[2]);
    for (let p = 0; p < 3; p++) for (let q = 0; q < 3; q++) sums[3 * p + q] += weight * v[p] * v[q];
  });
  const { vectors } = eigenSymmetric(sums, 3);
  const [a, b, turn] = [vectors[0], vectors[3], vectors[6] / unit];
  return ({ x, y }: { readonly x: number; readonly y: number }): Vec2 => [a - turn * (y - my), b + turn * (x - mx)];
}
