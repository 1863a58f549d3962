import type { HeightGrid } from '../../core/geometry/index.ts';

/**
 * How open each cell is to the sky, 0 to 1: ½ + Σ (z − mean of z within r) / (2 r) over two radii, clamped. A cheap
 * stand-in for the sky-view factor that darkens hollows a little in the shown light; nothing is measured from it.
 */
export function skyTerm(grid: HeightGrid, radiiMm: readonly number[] = [0.35, 1.4]): Float32Array {
  const out = new Float32Array(grid.z.length).fill(0.5);
  for (const radius of radiiMm) {
    const mean = boxMean(grid, Math.max(1, Math.round(radius / grid.pitch)));
    for (let i = 0; i < out.length; i++) if (grid.mask[i]) out[i] += (grid.z[i] - mean[i]) / (2 * radius);
  }
  for (let i = 0; i < out.length; i++) out[i] = Math.min(1, Math.max(0, out[i]));
  return out;
}

/** Mean over the cells with data of a square of side 2 r + 1: two passes of running sums. */
function boxMean(grid: HeightGrid, r: number): Float32Array {
  const { width, height, z, mask } = grid;
  const sums = new Float32Array(z.length);
  const counts = new Float32Array(z.length);
  for (let row = 0; row < height; row++) run(z, mask, sums, counts, row * width, 1, width, r);
  const out = new Float32Array(z.length);
  const n = new Float32Array(z.length);
  for (let col = 0; col < width; col++) run(sums, counts, out, n, col, width, height, r);
  for (let i = 0; i < out.length; i++) out[i] = n[i] > 0 ? out[i] / n[i] : 0;
  return out;
}

function run(
  values: ArrayLike<number>,
  weights: ArrayLike<number>,
  sums: Float32Array,
  counts: Float32Array,
  start: number,
  step: number,
  length: number,
  r: number,
): void {
  let sum = 0;
  let count = 0;
  for (let k = -r; k < length; k++) {
    const ahead = k + r;
    if (ahead < length) {
      const i = start + ahead * step;
      sum += values[i];
      count += weights[i];
    }
    const behind = k - r - 1;
    if (behind >= 0) {
      const i = start + behind * step;
      sum -= values[i];
      count -= weights[i];
    }
    if (k >= 0) {
      sums[start + k * step] = sum;
      counts[start + k * step] = count;
    }
  }
}
