import { hullOf, type OutlineShape } from '../../face/index.ts';
import { type Aligned, type BandRelief, depthOf } from './alignCurve.ts';
import { type CurvePlace, curveOf, resample } from './baseCurve.ts';
import { energyOf } from './parallelRelief.ts';
import { ringProfile } from './ringProfile.ts';

/** Points of the curve, and step of the depths at which it is weighed, mm. */
const count = 720;
const stepMm = 0.1;
const leastDeepMm = 2;
/** The hull of cells has sides some millimetres long, whose corners reach less far inward: they are smoothed over so many of the points (1 σ). */
const smoothed = 7;

/**
 * The image's own outline as a curve, none where it is too small: a hand drew the legend along the edge that it had cut, whichever ideal
 * shape it had in mind. It is the convex hull, so that holes and notches do not dent it; along a break it is a chord, and what lies along that
 * is worth little. `shape`: what the outline is taken for.
 */
export function outlineCurve({ fine }: BandRelief, shape: OutlineShape): Aligned[] {
  const path = closedClockwise(hullOf(fine, fine.mask));
  const place = boxOf(path);
  const deepMm = depthOf({ place });
  if (!(deepMm > leastDeepMm)) return [];
  const curve = curveOf(smooth(resample(path, count)));
  const explained = ringProfile(fine, curve, 0, deepMm, stepMm).explained / energyOf(fine);
  return [{ shape: shape === 'irregular' ? 'free' : shape, place, curve, explained }];
}

/** The hull runs counter-clockwise; its first point again at the end. */
function closedClockwise(hull: Float64Array): Float64Array {
  const n = hull.length / 2;
  return Float64Array.from({ length: 2 * n + 2 }, (_, i) => hull[2 * ((2 * n - (i >> 1)) % n) + (i % 2)]);
}

/** A closed path averaged along itself with a Gaussian's weights. */
function smooth(points: Float64Array): Float64Array {
  const n = points.length / 2;
  const reach = 3 * smoothed;
  const weights = Float64Array.from({ length: 2 * reach + 1 }, (_, k) =>
    Math.exp(-0.5 * ((k - reach) / smoothed) ** 2),
  );
  const all = weights.reduce((a, b) => a + b, 0);
  return points.map((_, i) =>
    weights.reduce((sum, w, k) => sum + (w / all) * points[2 * (((i >> 1) + k - reach + n) % n) + (i % 2)], 0),
  );
}

function boxOf(path: Float64Array): CurvePlace {
  const [x, y] = [0, 1].map((k) => path.filter((_, i) => i % 2 === k));
  const [left, right, bottom, top] = [Math.min(...x), Math.max(...x), Math.min(...y), Math.max(...y)];
  return { cx: (left + right) / 2, cy: (bottom + top) / 2, turnDeg: 0, a: (right - left) / 2, b: (top - bottom) / 2 };
}
