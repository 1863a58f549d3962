import { gaussianFilter, type HeightGrid } from '../../geometry/index.ts';
import { type Lamp, type Normals, normalsOf, towardLamp } from '../light/index.ts';

export interface ExaggeratedShadingOptions {
  /** Direction of the light as a whole. */
  readonly lamp?: Lamp;
  /** Cut-off of the finest smoothing, mm. */
  readonly finestMm?: number;
  /** How many scales, each smoothed twice as far as the one before. */
  readonly scales?: number;
  /** Contrast a within a scale; large values approach black and white. */
  readonly contrast?: number;
  /** Weight of scale i ∝ wavelength^balance: above 0 favours broad form, below 0 fine detail. */
  readonly balance?: number;
}

export const exaggeratedDefaults = {
  lamp: { azimuthDeg: 315, heightDeg: 30 },
  finestMm: 0.1,
  scales: 5,
  contrast: 6,
  balance: -0.25,
} as const;

/**
 * Exaggerated shading, 0 to 1: at every scale the light is bent until it grazes the next smoother surface, so that each
 * scale is seen in raking light wherever it lies.
 *   l_{i+1} = l − n_{i+1} (n_{i+1} · l), made a unit vector; c_i = clamp(a n_i · l_{i+1}, −1, 1);
 *   grey = ½ + ½ Σ k_i c_i, k_i ∝ λ_i^balance with sum 1. n_i is the normal after a Gaussian of cut-off λ_i.
 * A crack darkens or brightens its surroundings as far as the smoothing that still sees it (a soft border).
 * Source: Rusinkiewicz, Burns and DeCarlo, ACM Transactions on Graphics 25(3), 2006 (weights' form from memory).
 */
export function exaggeratedShading(grid: HeightGrid, options: ExaggeratedShadingOptions = {}): Float32Array {
  const { lamp, finestMm, scales, contrast, balance } = { ...exaggeratedDefaults, ...options };
  const global = towardLamp(lamp);
  const wavelengths = Array.from({ length: scales + 1 }, (_, i) => finestMm * 2 ** i);
  const weights = wavelengths.slice(0, scales).map((wavelength) => wavelength ** balance);
  const total = weights.reduce((a, b) => a + b, 0);
  const sum = new Float32Array(grid.z.length);
  let sharper = normalsOf(gaussianFilter(grid, wavelengths[0]));
  for (let i = 0; i < scales; i++) {
    const smoother = normalsOf(gaussianFilter(grid, wavelengths[i + 1]));
    addScale(sharper, smoother, global, contrast, weights[i] / total, sum);
    sharper = smoother;
  }
  for (let i = 0; i < sum.length; i++) sum[i] = grid.mask[i] ? 0.5 + 0.5 * sum[i] : 0;
  return sum;
}

function addScale(
  sharper: Normals,
  smoother: Normals,
  [lx, ly, lz]: readonly [number, number, number],
  contrast: number,
  weight: number,
  sum: Float32Array,
): void {
  for (let i = 0; i < sum.length; i++) {
    const sx = smoother.x[i];
    const sy = smoother.y[i];
    const sz = smoother.z[i];
    const along = sx * lx + sy * ly + sz * lz;
    const x = lx - along * sx;
    const y = ly - along * sy;
    const z = lz - along * sz;
    const size = Math.sqrt(x * x + y * y + z * z);
    if (size < 1e-9) continue;
    const c = (contrast * (sharper.x[i] * x + sharper.y[i] * y + sharper.z[i] * z)) / size;
    sum[i] += weight * Math.min(1, Math.max(-1, c));
  }
}
