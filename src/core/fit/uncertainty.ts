import { eigenSymmetric } from '../geometry/index.ts';
import type { IcpOptions, IcpResult } from './icp.ts';
import type { FreeMotion } from './types.ts';

/** How sure the pose is: about the face's centre, in the reference's face frame. */
export interface PoseUncertainty {
  /** 7 × 7 over (turn x, y, z rad; shift x, y, z mm; log size), row-major. */
  readonly covariance: Float64Array;
  readonly rotationSdDeg: number;
  readonly translationSdMm: number;
  readonly scaleSd: number;
  readonly degenerate: readonly FreeMotion[];
}

/** Directions whose eigenvalue is below this share of the greatest slide almost freely (Gelfand et al. 2003). */
const freeBelow = 2e-4;
const axes: readonly FreeMotion[] = ['turnX', 'turnY', 'turnZ', 'slideX', 'slideY', 'slideZ', 'growth'];

/**
 * Covariance σ² H⁻¹ of a point-to-plane fit (valid for this objective: Bonnabel, Barczyk and Goulette, arXiv
 * 1410.7632), σ² from the residuals and multiplied by how many neighbours say the same: white noise alone makes it
 * overconfident (Brossard, Bonnabel and Barrau 2020). Turn and size were fitted times R and are divided by it again.
 */
export function poseUncertainty(fit: IcpResult, options: IcpOptions): PoseUncertainty {
  const n = 7;
  const h = leading(fit.hessian, fit.parameters, n);
  const { values, vectors } = eigenSymmetric(h, n);
  const variance = fit.rmsMm ** 2 * sharedNeighbours(fit);
  const R = options.radiusMm;
  const unit = [1 / R, 1 / R, 1 / R, 1, 1, 1, 1 / R];
  const covariance = new Float64Array(n * n);
  const least = 1e-9 * values[n - 1];
  for (let r = 0; r < n; r++)
    for (let c = 0; c < n; c++) {
      let sum = 0;
      for (let k = 0; k < n; k++) sum += (vectors[r * n + k] * vectors[c * n + k]) / Math.max(least, values[k]);
      covariance[r * n + c] = variance * sum * unit[r] * unit[c];
    }
  const sd = (k: number): number => Math.sqrt(covariance[k * n + k]);
  return {
    covariance,
    rotationSdDeg: (Math.hypot(sd(0), sd(1), sd(2)) * 180) / Math.PI,
    translationSdMm: Math.hypot(sd(3), sd(4), sd(5)),
    scaleSd: sd(6),
    degenerate: freeMotions(values, vectors),
  };
}

function leading(h: Float64Array, size: number, n: number): Float64Array {
  const out = new Float64Array(n * n);
  for (let r = 0; r < n; r++) for (let c = 0; c < n; c++) out[r * n + c] = h[r * size + c];
  return out;
}

/**
 * Names as many motions as there are free directions: those that have the greatest part in them. The directions alone
 * will not do, since any mixture of two free ones is free.
 */
function freeMotions(values: Float64Array, vectors: Float64Array): FreeMotion[] {
  const n = values.length;
  const free = values.filter((value) => value < freeBelow * values[n - 1]).length;
  const part = axes.map((_, r) => vectors.subarray(r * n, r * n + free).reduce((sum, v) => sum + v * v, 0));
  return axes.filter((_, r) => part.filter((other) => other > part[r]).length < free);
}

/**
 * Number of points that share one independent residual: with a correlation ρ between neighbouring points that falls
 * off exponentially, (1 + ρ)/(1 − ρ) along each of the two directions.
 */
function sharedNeighbours({ pairs, weights }: IcpResult): number {
  let [product, square, n] = [0, 0, 0];
  for (let i = 1; i < weights.length; i++) {
    if (!(weights[i] > 0 && weights[i - 1] > 0)) continue;
    product += pairs.residual[i] * pairs.residual[i - 1];
    square += pairs.residual[i] ** 2;
    n++;
  }
  const rho = n > 0 && square > 0 ? Math.max(0, Math.min(0.95, product / square)) : 0;
  return ((1 + rho) / (1 - rho)) ** 2;
}
