import { Matrix, SVD } from 'ml-matrix';
import { determinant3, rotate, type Similarity, type Vec3 } from '../../src/core/geometry/index.ts';

/**
 * The similarity s R p + t that takes `from` to `to` with the least sum of squares, over xyz triples.
 * Source: S. Umeyama, IEEE TPAMI 13(4), 1991. Throws for fewer than three points.
 */
export function leastSquaresSimilarity(from: Float64Array, to: Float64Array): Similarity {
  const n = from.length / 3;
  if (n < 3) throw new Error('At least three points are needed for a similarity.');
  const meanFrom = mean(from);
  const meanTo = mean(to);
  const covariance = new Float64Array(9);
  let variance = 0;
  for (let i = 0; i < from.length; i += 3) {
    for (let a = 0; a < 3; a++) {
      variance += (from[i + a] - meanFrom[a]) ** 2;
      for (let b = 0; b < 3; b++) covariance[3 * a + b] += (to[i + a] - meanTo[a]) * (from[i + b] - meanFrom[b]);
    }
  }
  const svd = new SVD(Matrix.from1DArray(3, 3, Array.from(covariance)));
  const u = svd.leftSingularVectors;
  const v = svd.rightSingularVectors;
  const proper = u.mmul(v.transpose());
  const sign = determinant3(proper.to1DArray()) < 0 ? -1 : 1;
  const rotation = u
    .mmul(Matrix.diag([1, 1, sign]))
    .mmul(v.transpose())
    .to1DArray();
  const [s0, s1, s2] = svd.diagonal;
  const scale = (s0 + s1 + sign * s2) / variance;
  const turned = rotate(rotation, meanFrom);
  const at = (axis: 0 | 1 | 2): number => meanTo[axis] - scale * turned[axis];
  const translation: Vec3 = [at(0), at(1), at(2)];
  return { scale, rotation, translation };
}

function mean(points: Float64Array): Vec3 {
  let x = 0;
  let y = 0;
  let z = 0;
  for (let i = 0; i < points.length; i += 3) {
    x += points[i];
    y += points[i + 1];
    z += points[i + 2];
  }
  const n = points.length / 3;
  return [x / n, y / n, z / n];
}
