import type { HeightGrid } from '../geometry/index.ts';
import type { Keypoint } from './keypoints.ts';
import type { Level } from './scaleSpace.ts';

export const describeDefaults = {
  /** Reach of the window in which the direction is sought, σ, and the share of its greatest that a second direction needs. */
  directionReach: 4.5,
  secondShare: 0.8,
  /** Side of one of the 4 × 4 parts of the window, σ. */
  partSigmas: 3,
  /** Greatest share of one entry before the vector is brought to length 1 again: a single edge shall not decide. */
  clip: 0.2,
};

/** Entries of a descriptor: 4 × 4 parts by 8 directions. */
export const entries = 128;

/** A place with a direction, and the relief around it in its own frame. */
export interface Described {
  readonly at: Keypoint;
  /** Radians counter-clockwise from x. */
  readonly angle: number;
  /** Length 1; part (u, v) along and across the direction, gradient direction o of 8: entry (4 u + v) · 8 + o. */
  readonly vector: Float32Array;
}

/**
 * Histograms of gradients around every keypoint in the frame of its own direction: invariant to turn, and with the window in σ
 * to size. Gradients where a neighbour carries no data do not count. Source: Lowe, IJCV 60(2), 2004, §5–6; square roots of the
 * entries after Arandjelović and Zisserman, CVPR 2012.
 */
export function describe(
  grid: HeightGrid,
  levels: readonly Level[],
  points: readonly Keypoint[],
  options = describeDefaults,
): Described[] {
  const gradients = new Map<number, Gradients>();
  const out: Described[] = [];
  for (const at of points) {
    const field = gradients.get(at.level) ?? gradientsOf(grid, levels[at.level].z);
    gradients.set(at.level, field);
    for (const angle of directionsAt(field, grid, at, options))
      out.push({ at, angle, vector: vectorAt(field, grid, at, angle, options) });
  }
  return out;
}

interface Gradients {
  readonly x: Float32Array;
  /** Up the picture. */
  readonly y: Float32Array;
}

function gradientsOf({ width, height, mask }: HeightGrid, z: Float32Array): Gradients {
  const x = new Float32Array(z.length);
  const y = new Float32Array(z.length);
  for (let row = 1; row < height - 1; row++)
    for (let col = 1; col < width - 1; col++) {
      const i = row * width + col;
      if (!(mask[i] && mask[i - 1] && mask[i + 1] && mask[i - width] && mask[i + width])) continue;
      x[i] = z[i + 1] - z[i - 1];
      y[i] = z[i - width] - z[i + width];
    }
  return { x, y };
}

const bins = 36;

function directionsAt(
  { x, y }: Gradients,
  grid: HeightGrid,
  { col, row, sigmaMm }: Keypoint,
  options: typeof describeDefaults,
) {
  const histogram = new Float64Array(bins);
  const sigma = sigmaMm / grid.pitch;
  visit(grid, col, row, options.directionReach * sigma, (i, dc, dr) => {
    const size = Math.hypot(x[i], y[i]);
    if (size === 0) return;
    const weight = size * Math.exp(-(dc * dc + dr * dr) / (2 * (1.5 * sigma) ** 2));
    const at = ((Math.atan2(y[i], x[i]) / (2 * Math.PI) + 1) * bins) % bins;
    const low = Math.floor(at);
    histogram[low % bins] += weight * (1 - at + low);
    histogram[(low + 1) % bins] += weight * (at - low);
  });
  const smooth = smoothed(smoothed(histogram));
  const most = Math.max(...smooth);
  const found: { value: number; angle: number }[] = [];
  for (let b = 0; b < bins; b++) {
    const [before, here, after] = [smooth[(b + bins - 1) % bins], smooth[b], smooth[(b + 1) % bins]];
    if (here <= 0 || here < options.secondShare * most || here <= before || here < after) continue;
    const offset = (before - after) / (2 * (before - 2 * here + after) || 1);
    found.push({ value: here, angle: ((b + offset) * 2 * Math.PI) / bins });
  }
  return found
    .sort((a, b) => b.value - a.value)
    .slice(0, 2)
    .map(({ angle }) => angle);
}

const smoothed = (h: Float64Array): Float64Array =>
  h.map((value, b) => (h[(b + bins - 1) % bins] + value + h[(b + 1) % bins]) / 3);

function vectorAt(
  { x, y }: Gradients,
  grid: HeightGrid,
  point: Keypoint,
  angle: number,
  options: typeof describeDefaults,
) {
  const sigma = point.sigmaMm / grid.pitch;
  const part = options.partSigmas * sigma;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const vector = new Float32Array(entries);
  visit(grid, point.col, point.row, part * 2.5 * Math.SQRT2, (i, dc, dr) => {
    const [gx, gy] = [x[i], y[i]];
    if (gx === 0 && gy === 0) return;
    const u = (c * dc - s * dr) / part + 1.5;
    const v = (-s * dc - c * dr) / part + 1.5;
    if (u <= -1 || v <= -1 || u >= 4 || v >= 4) return;
    const size = Math.hypot(gx, gy) * Math.exp(-((u - 1.5) ** 2 + (v - 1.5) ** 2) / 8);
    const o = (((Math.atan2(gy, gx) - angle) / (2 * Math.PI) + 2) * 8) % 8;
    add(vector, u, v, o, size);
  });
  return normalised(vector, options.clip);
}

/** Shared out among the nearest parts and directions, trilinear. */
function add(vector: Float32Array, u: number, v: number, o: number, size: number): void {
  const [u0, v0, o0] = [Math.floor(u), Math.floor(v), Math.floor(o)];
  for (let du = 0; du < 2; du++) {
    const iu = u0 + du;
    if (iu < 0 || iu > 3) continue;
    const wu = size * (du ? u - u0 : 1 - u + u0);
    for (let dv = 0; dv < 2; dv++) {
      const iv = v0 + dv;
      if (iv < 0 || iv > 3) continue;
      const w = wu * (dv ? v - v0 : 1 - v + v0);
      const base = (4 * iu + iv) * 8;
      vector[base + (o0 % 8)] += w * (1 - o + o0);
      vector[base + ((o0 + 1) % 8)] += w * (o - o0);
    }
  }
}

function normalised(vector: Float32Array, clip: number): Float32Array {
  const length = Math.hypot(...vector) || 1;
  const clipped = vector.map((value) => Math.min(clip, value / length));
  const sum = clipped.reduce((total, value) => total + value, 0) || 1;
  return clipped.map((value) => Math.sqrt(value / sum));
}

/** Cells within `reach` cells of a place; offsets in columns and rows. */
function visit(
  { width, height }: HeightGrid,
  col: number,
  row: number,
  reach: number,
  each: (i: number, dc: number, dr: number) => void,
) {
  const [r0, r1] = [Math.max(1, Math.ceil(row - reach)), Math.min(height - 2, Math.floor(row + reach))];
  const [c0, c1] = [Math.max(1, Math.ceil(col - reach)), Math.min(width - 2, Math.floor(col + reach))];
  for (let r = r0; r <= r1; r++) for (let k = c0; k <= c1; k++) each(r * width + k, k - col, r - row);
}
