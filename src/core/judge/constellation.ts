import { eigenSymmetric } from '../geometry/index.ts';
import type { MeasuredPlaces } from './measure.ts';
import type { Weighed } from './rivals.ts';
import type { Constellation, PlacedLandmark } from './types.ts';

export const constellationDefaults = {
  /** What one matrix's impressions differ by besides, from place to place: local flow, 1 σ in each direction, mm. */
  flowMm: 0.02,
  /** Landmarks needed before their places are compared. */
  least: 6,
};

/** χ² of two degrees of freedom at 95 %. */
const chiSquare95 = 5.991;

/** What was measured and weighed, landmark by landmark. `weighed` null: too few are seen on both. */
export function constellationOf(places: MeasuredPlaces, weighed: Weighed | null): Constellation {
  const unseen = places.absent.map(({ x, y }) => ({ x, y }));
  if (!weighed) return { landmarks: [], found: places.found, unseen, smoothMm: Number.NaN, outside: Number.NaN };
  const { left } = weighed.best;
  const landmarks = places.seen.map(({ x, y, dx, dy, covariance, correlation }, i): PlacedLandmark => {
    const aloneSmooth = [left[2 * i], left[2 * i + 1]] as const;
    return { x, y, dx, dy, aloneSmooth, ellipse: errorEllipse(covariance, places.spacingMm), correlation };
  });
  const outside = landmarks.filter((one) => isOutside(one.aloneSmooth, one, constellationDefaults.flowMm)).length;
  return {
    landmarks,
    found: places.found,
    unseen,
    smoothMm: medianOf(landmarks.map(({ aloneSmooth: [x, y] }) => Math.hypot(x, y))),
    outside: outside / landmarks.length,
  };
}

const medianOf = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1];

/** 95 % error ellipse of a place: half axes √(5.991 λ), λ the eigenvalues of its covariance and the spacing's. */
function errorEllipse([xx, xy, yy]: readonly [number, number, number], spacingMm: number): PlacedLandmark['ellipse'] {
  const spacing = spacingMm ** 2;
  const { values, vectors } = eigenSymmetric(Float64Array.of(xx + spacing, xy, xy, yy + spacing), 2);
  const half = (value: number): number => Math.sqrt(chiSquare95 * Math.max(0, value));
  const [long, short] = values[0] >= values[1] ? [0, 1] : [1, 0];
  const deg = (Math.atan2(vectors[2 + long], vectors[long]) * 180) / Math.PI;
  return { majorMm: half(values[long]), minorMm: half(values[short]), deg: ((deg % 180) + 180) % 180 };
}

/** Outside the ellipse of the place and the flow together: their covariances add. */
export function isOutside(
  [dx, dy]: readonly [number, number],
  { ellipse: { majorMm, minorMm, deg } }: Pick<PlacedLandmark, 'ellipse'>,
  flowMm: number,
): boolean {
  const turn = (deg * Math.PI) / 180;
  const along = dx * Math.cos(turn) + dy * Math.sin(turn);
  const across = dy * Math.cos(turn) - dx * Math.sin(turn);
  const flow = chiSquare95 * flowMm ** 2;
  return along ** 2 / (majorMm ** 2 + flow) + across ** 2 / (minorMm ** 2 + flow) > 1;
}
