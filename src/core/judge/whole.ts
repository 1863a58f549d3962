import type { Outline } from '../face/index.ts';

/**
 * Whether an outline is that of a whole image and not of a fragment: point by point as far from the centre as the point
 * across it, or as its mirror image left to right, within `tolerance` of the mean radius, for all but a tenth of the
 * directions. Rounds, ovals, pointed ovals, squares and shields pass; a half, a wedge or a crescent does not.
 */
export function isWhole({ polygon }: Pick<Outline, 'polygon'>, tolerance = 0.09): boolean {
  const n = polygon.length / 2;
  const radius = (k: number): number => Math.hypot(polygon[2 * k], polygon[2 * k + 1]);
  const mean = Array.from({ length: n }, (_, k) => radius(k)).reduce((a, b) => a + b, 0) / n;
  const misfit = (other: (k: number) => number): number => {
    const apart = Array.from({ length: n }, (_, k) => Math.abs(radius(k) - radius(other(k) % n)) / mean);
    return apart.sort((a, b) => a - b)[Math.floor(0.9 * n)];
  };
  // Directions are even and counter-clockwise from x: k and n/2 − k lie left and right of the upright axis.
  const half = n / 2;
  return (
    Math.min(
      misfit((k) => k + half),
      misfit((k) => half - k + n),
    ) <= tolerance
  );
}
