import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import type { HeightGrid } from '../../geometry/index.ts';
import { lampsRound, type Normals, normalsOf, towardLamp } from '../light/index.ts';

export interface PrincipalShadingOptions {
  /** Lamps round the picture. */
  readonly lamps?: number;
  /** Their height above the face plane, degrees. */
  readonly heightDeg?: number;
  readonly exaggeration?: number;
}

export interface PrincipalShading {
  /** The first three components, each scaled to standard deviation 1; 0 without data. */
  readonly components: readonly [Float32Array, Float32Array, Float32Array];
  /** Share of all variance that each explains. */
  readonly explained: readonly [number, number, number];
}

/**
 * Multi-light detail: shadings by lamps all round, reduced to the three pictures that hold most of what differs.
 * S_k = max(0, n · l_k) for K lamps; C their covariance over the picture; component m = Σ_k e_mk (S_k − mean S_k) with
 * e_m the m-th eigenvector of C. The first component's sign is that of light from the upper left. No single direction
 * of stroke is lost, as it is under one lamp. Does not ring: every value comes from one cell's normal.
 * Source: Devereux, Amable and Crow, Antiquity 82, 2008 (principal components of sixteen shadings).
 */
export function principalShading(grid: HeightGrid, options: PrincipalShadingOptions = {}): PrincipalShading {
  const { lamps = 16, heightDeg = 35, exaggeration = 1 } = options;
  const normals = normalsOf(grid, exaggeration);
  const rays = lampsRound(lamps, heightDeg).map(towardLamp);
  const { mean, covariance } = shadingMoments(normals, grid.mask, rays);
  const { realEigenvalues: values, eigenvectorMatrix } = new EigenvalueDecomposition(covariance, {
    assumeSymmetric: true,
  });
  const order = values.map((_, k) => k).sort((a, b) => values[b] - values[a]);
  const total = values.reduce((sum, value) => sum + Math.max(0, value), 0);
  const parts = order.slice(0, 3).map((k) => {
    const vector = eigenvectorMatrix.getColumn(k);
    // The first lamp of the round stands upper left.
    const sign = vector[0] < 0 ? -1 : 1;
    const scale = sign / Math.sqrt(Math.max(values[k], 1e-12));
    return component(normals, grid.mask, rays, mean, vector, scale);
  });
  const explained = order.slice(0, 3).map((k) => (total > 0 ? Math.max(0, values[k]) / total : 0));
  return {
    components: [parts[0], parts[1], parts[2]],
    explained: [explained[0], explained[1], explained[2]],
  };
}

type Ray = readonly [number, number, number];

const shade = (n: Normals, i: number, l: Ray): number => Math.max(0, n.x[i] * l[0] + n.y[i] * l[1] + n.z[i] * l[2]);

/** Means and covariances over at most about 50,000 cells, evenly taken. */
function shadingMoments(
  n: Normals,
  mask: Uint8Array,
  rays: readonly Ray[],
): { mean: Float64Array; covariance: Matrix } {
  const k = rays.length;
  const mean = new Float64Array(k);
  const product = new Float64Array(k * k);
  const step = Math.max(1, Math.floor(mask.length / 50_000));
  const values = new Float64Array(k);
  let count = 0;
  for (let i = 0; i < mask.length; i += step) {
    if (!mask[i]) continue;
    count++;
    for (let a = 0; a < k; a++) {
      values[a] = shade(n, i, rays[a]);
      mean[a] += values[a];
      for (let b = 0; b <= a; b++) product[a * k + b] += values[a] * values[b];
    }
  }
  const covariance = Matrix.zeros(k, k);
  for (let a = 0; a < k; a++) mean[a] /= Math.max(1, count);
  for (let a = 0; a < k; a++)
    for (let b = 0; b <= a; b++) {
      const value = product[a * k + b] / Math.max(1, count) - mean[a] * mean[b];
      covariance.set(a, b, value);
      covariance.set(b, a, value);
    }
  return { mean, covariance };
}

function component(
  n: Normals,
  mask: Uint8Array,
  rays: readonly Ray[],
  mean: Float64Array,
  vector: readonly number[],
  scale: number,
): Float32Array {
  const out = new Float32Array(mask.length);
  for (let i = 0; i < out.length; i++) {
    if (!mask[i]) continue;
    let sum = 0;
    for (let k = 0; k < rays.length; k++) sum += vector[k] * (shade(n, i, rays[k]) - mean[k]);
    out[i] = sum * scale;
  }
  return out;
}
