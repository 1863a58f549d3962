import type { Outline } from '../face/index.ts';

/**
 * Whether an outline is that of a whole image and not of a fragment: what its own symmetry would add to it, direction by direction the longer of
 * the radius and of that across the centre (or of its mirror image left to right), is at most this share of the area so made up. Rounds, ovals,
 * pointed ovals, squares and shields pass, and so do images that wax left uneven all round; a half, a wedge or a crescent does not.
 */
export function isWhole({ polygon }: Pick<Outline, 'polygon'>, mostMissing = 0.06): boolean {
  const n = polygon.length / 2;
  const square = (k: number): number => polygon[2 * (k % n)] ** 2 + polygon[2 * (k % n) + 1] ** 2;
  const sum = (of: (k: number) => number): number => Array.from({ length: n }, (_, k) => of(k)).reduce((a, b) => a + b);
  const missing = (other: (k: number) => number): number =>
    1 - sum(square) / sum((k) => Math.max(square(k), square(other(k))));
  // Directions are even and counter-clockwise from x: k and n/2 − k lie left and right of the upright axis.
  const half = n / 2;
  const across = missing((k) => k + half);
  const mirrored = missing((k) => half - k + n);
  return Math.min(across, mirrored) <= mostMissing;
}
