import { eigenSymmetric } from '../geometry/index.ts';
import { blockSpread, pose } from './blocksLeftOut.ts';
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
 * What no block left out can show, as factors of the standard deviations: rubbed tops pull every block alike, and wax that flows over the whole face moves the
 * size of every part. Measured on 160 made pairs (docs/fit.md), confirmed on others.
 */
export const uncertaintyDefaults = { turnBeyondBlocks: 1.45, beyondBlocks: 1.3, sizeBeyondBlocks: 1.4 };

/**
 * Covariance of the pose: what leaving out blocks of the face shows, and what that cannot show. Residuals of a seal are no white
 * noise: letters are worn and filled as letters, and wax flows by more than the twelve fields of the warp; σ²H⁻¹ takes them for it
 * and came out half as large as the errors (docs/fit.md). Free motions: Gelfand, Ikemoto, Rusinkiewicz and Levoy, 3DIM 2003.
 */
export function poseUncertainty(fit: IcpResult, options: IcpOptions): PoseUncertainty {
  const { values, vectors } = eigenSymmetric(leading(fit.hessian, fit.parameters, pose), pose);
  const R = options.radiusMm;
  const { turnBeyondBlocks: turn, beyondBlocks: own, sizeBeyondBlocks: size } = uncertaintyDefaults;
  const unit = [turn / R, turn / R, turn / R, own, own, own, size / R];
  const covariance = blockSpread(fit, options).map((value, k) => value * unit[Math.floor(k / pose)] * unit[k % pose]);
  const sd = (k: number): number => Math.sqrt(covariance[k * pose + k]);
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
