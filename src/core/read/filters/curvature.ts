import { gaussianFilter, type HeightGrid } from '../../geometry/index.ts';

export interface Curvatures {
  /** Ridge: how sharply the surface bends down across its most bent direction, −κ_min, 1/mm; 0 where it does not. */
  readonly ridge: Float32Array;
  /** Valley: κ_max, 1/mm; 0 where it does not bend up. */
  readonly valley: Float32Array;
}

/**
 * Principal curvatures at a scale: the relief is smoothed with a Gaussian of σ = `scaleMm`, then a second-order surface
 * is fitted by least squares to 3 × 3 cells at a spacing of about σ. With p, q first and r, s, t second derivatives:
 *   H = ((1 + q²) r − 2 p q s + (1 + p²) t)/(2 (1 + p² + q²)^1.5),  K = (r t − s²)/(1 + p² + q²)²,  κ = H ± √(H² − K).
 * 0 where one of the nine cells has no data. A crack gives a valley with a ridge on both sides (ringing).
 * Source: least-squares derivatives, I. S. Evans 1980; curvatures, Gauss (any text on differential geometry).
 */
export function curvatures(grid: HeightGrid, scaleMm: number): Curvatures {
  const { width, height, mask, pitch } = grid;
  const smooth = gaussianFilter(grid, scaleMm / sigmaPerCutoff).z;
  const step = Math.max(1, Math.round(scaleMm / pitch));
  const ridge = new Float32Array(smooth.length);
  const valley = new Float32Array(smooth.length);
  const down = step * width;
  const around = [-down - step, -down, -down + step, -step, step, down - step, down, down + step];
  for (let r = step; r < height - step; r++)
    for (let c = step; c < width - step; c++) {
      const i = r * width + c;
      if (!mask[i] || around.some((offset) => mask[i + offset] === 0)) continue;
      const [least, most] = principal(smooth, i, step, down, step * pitch);
      ridge[i] = Math.max(0, -least);
      valley[i] = Math.max(0, most);
    }
  return { ridge, valley };
}

/** σ of the Gaussian filter over its cut-off. */
const sigmaPerCutoff = 0.187390625;

/** κ_min and κ_max from the nine cells round i, `step` cells right and `down` cells down apart, `h` mm. */
function principal(z: Float32Array, i: number, step: number, down: number, h: number): [number, number] {
  const nw = z[i - down - step];
  const n = z[i - down];
  const ne = z[i - down + step];
  const w = z[i - step];
  const o = z[i];
  const e = z[i + step];
  const sw = z[i + down - step];
  const s = z[i + down];
  const se = z[i + down + step];
  const p = (ne + e + se - nw - w - sw) / (6 * h);
  const q = (nw + n + ne - sw - s - se) / (6 * h);
  const r = (nw + w + sw + ne + e + se - 2 * (n + o + s)) / (3 * h * h);
  const t = (nw + n + ne + sw + s + se - 2 * (w + o + e)) / (3 * h * h);
  const mixed = (ne + sw - nw - se) / (4 * h * h);
  const g = 1 + p * p + q * q;
  const mean = ((1 + q * q) * r - 2 * p * q * mixed + (1 + p * p) * t) / (2 * g * Math.sqrt(g));
  const gauss = (r * t - mixed * mixed) / (g * g);
  const root = Math.sqrt(Math.max(0, mean * mean - gauss));
  return [mean - root, mean + root];
}
