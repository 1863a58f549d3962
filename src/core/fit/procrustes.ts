import { Matrix, SVD } from 'ml-matrix';
import { determinant3, rotate, type Similarity, type Vec3 } from '../geometry/index.ts';

/**
 * The rigid motion and the similarity that take `from` to `to` with the least sum of squares (Umeyama, IEEE TPAMI 13(4), 1991).
 * xyz triples; `weights` one per pair. det R = +1, or −1 where `mirrored`.
 */
export function leastSquaresMotions(
  from: ArrayLike<number>,
  to: ArrayLike<number>,
  weights: ArrayLike<number>,
  mirrored = false,
): { readonly rigid: Similarity; readonly oneScale: Similarity } {
  const a = centroid(from, weights);
  const b = centroid(to, weights);
  const { covariance, spread } = scatterAbout(from, to, weights, a, b);
  const svd = new SVD(Matrix.from1DArray(3, 3, covariance));
  const left = svd.leftSingularVectors;
  const right = svd.rightSingularVectors;
  const handed = determinant3(left.mmul(right.transpose()).to1DArray()) * (mirrored ? -1 : 1);
  const fix = Matrix.diag([1, 1, handed < 0 ? -1 : 1]);
  const rotation = left.mmul(fix).mmul(right.transpose()).to1DArray();
  const [s0, s1, s2] = svd.diagonal;
  const turned = rotate(rotation, a);
  const sized = (scale: number): Similarity => ({
    scale,
    rotation,
    translation: [b[0] - scale * turned[0], b[1] - scale * turned[1], b[2] - scale * turned[2]],
  });
  return { rigid: sized(1), oneScale: sized((s0 + s1 + (handed < 0 ? -s2 : s2)) / spread) };
}

/** Σ w (to − b)(from − a)ᵀ, row-major, and Σ w |from − a|². */
function scatterAbout(
  from: ArrayLike<number>,
  to: ArrayLike<number>,
  weights: ArrayLike<number>,
  a: Vec3,
  b: Vec3,
): { covariance: Float64Array; spread: number } {
  const covariance = new Float64Array(9);
  let spread = 0;
  for (let i = 0; i < weights.length; i++) {
    const w = weights[i];
    if (!(w > 0)) continue;
    for (let r = 0; r < 3; r++) {
      const u = from[3 * i + r] - a[r];
      spread += w * u * u;
      for (let c = 0; c < 3; c++) covariance[3 * c + r] += w * u * (to[3 * i + c] - b[c]);
    }
  }
  return { covariance, spread };
}

function centroid(points: ArrayLike<number>, weights: ArrayLike<number>): Vec3 {
  let [x, y, z, sum] = [0, 0, 0, 0];
  for (let i = 0; i < weights.length; i++) {
    const w = weights[i];
    if (!(w > 0)) continue;
    sum += w;
    x += w * points[3 * i];
    y += w * points[3 * i + 1];
    z += w * points[3 * i + 2];
  }
  return [x / sum, y / sum, z / sum];
}
