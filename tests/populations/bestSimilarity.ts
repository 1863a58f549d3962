import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { rotate, type Similarity, type Vec3 } from '../../src/core/geometry/index.ts';

/**
 * The similarity that takes points `from` to points `to` (x, y, z triples) with the least sum of squares: the rotation is
 * the quaternion of the largest eigenvalue of the 4 × 4 matrix of the covariance (Horn, JOSA A 4, 1987), the scale
 * Σ to · R from / Σ from². Also the root mean square that remains. Never a reflection.
 */
export function bestSimilarity(from: Float64Array, to: Float64Array): { similarity: Similarity; rms: number } {
  const a = meanOf(from);
  const b = meanOf(to);
  const s = new Float64Array(9);
  let square = 0;
  for (let i = 0; i < from.length; i += 3)
    for (let j = 0; j < 3; j++) {
      const p = from[i + j] - a[j];
      square += p * p;
      for (let k = 0; k < 3; k++) s[3 * j + k] += p * (to[i + k] - b[k]);
    }
  const [xx, xy, xz, yx, yy, yz, zx, zy, zz] = s;
  const symmetric = new Matrix([
    [xx + yy + zz, yz - zy, zx - xz, xy - yx],
    [yz - zy, xx - yy - zz, xy + yx, zx + xz],
    [zx - xz, xy + yx, yy - xx - zz, yz + zy],
    [xy - yx, zx + xz, yz + zy, zz - xx - yy],
  ]);
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(symmetric, { assumeSymmetric: true });
  const best = realEigenvalues.indexOf(Math.max(...realEigenvalues));
  const rotation = fromQuaternion(eigenvectorMatrix.getColumn(best));
  const scale = realEigenvalues[best] / square;
  const [x, y, z] = rotate(rotation, a);
  const translation: Vec3 = [b[0] - scale * x, b[1] - scale * y, b[2] - scale * z];
  const similarity = { scale, rotation, translation };
  return { similarity, rms: remaining(from, to, similarity) };
}

export const fromQuaternion = ([w, x, y, z]: readonly number[]): number[] => [
  ...[1 - 2 * (y * y + z * z), 2 * (x * y - w * z), 2 * (x * z + w * y)],
  ...[2 * (x * y + w * z), 1 - 2 * (x * x + z * z), 2 * (y * z - w * x)],
  ...[2 * (x * z - w * y), 2 * (y * z + w * x), 1 - 2 * (x * x + y * y)],
];

function meanOf(points: Float64Array): Vec3 {
  const sum: [number, number, number] = [0, 0, 0];
  for (let i = 0; i < points.length; i++) sum[i % 3] += points[i];
  const n = points.length / 3;
  return [sum[0] / n, sum[1] / n, sum[2] / n];
}

function remaining(from: Float64Array, to: Float64Array, { scale, rotation, translation }: Similarity): number {
  let sum = 0;
  for (let i = 0; i < from.length; i += 3) {
    const [x, y, z] = rotate(rotation, [from[i], from[i + 1], from[i + 2]]);
    sum += (scale * x + translation[0] - to[i]) ** 2;
    sum += (scale * y + translation[1] - to[i + 1]) ** 2;
    sum += (scale * z + translation[2] - to[i + 2]) ** 2;
  }
  return Math.sqrt(sum / (from.length / 3));
}
