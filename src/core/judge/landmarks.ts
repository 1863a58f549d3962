import { gaussianFilter, type HeightGrid, slopeX, slopeY, withHeights, xOf, yOf } from '../geometry/index.ts';

/** A place of the engraving that can be found again in both directions: a letter's corner, an ornament, a stroke's end. */
export interface Landmark {
  /** In the reference's face frame, mm. */
  readonly x: number;
  readonly y: number;
}

export const landmarkDefaults = {
  /** Radius over which a place is looked at, as a share of the face's size: about a third of a letter. */
  radius: 1 / 50,
  /** Landmarks lie at least so many radii apart. */
  apart: 1.2,
  /** Least strength against the median of the strengths found: empty field has none. */
  leastStrength: 0.5,
  /** No more than so many, strongest first. */
  most: 160,
};

/**
 * Places where the relief changes in every direction: local maxima of the smaller eigenvalue of the structure tensor
 * ⟨∇z ∇zᵀ⟩ averaged over `radius` (Shi and Tomasi 1994). A straight border has none, since along it nothing can be
 * placed. `relief`: band-passed, mm; `sizeMm`: the face's long side.
 */
export function findLandmarks(relief: HeightGrid, sizeMm: number, options = landmarkDefaults): Landmark[] {
  const { width, height, pitch } = relief;
  const strength = cornerStrength(relief, options.radius * sizeMm);
  const reach = Math.max(2, Math.round((options.apart * options.radius * sizeMm) / pitch));
  const margin = Math.round((options.radius * sizeMm) / pitch);
  const peaks: number[] = [];
  for (let row = margin; row < height - margin; row++)
    for (let col = margin; col < width - margin; col++) {
      const i = row * width + col;
      if (strength[i] > 0 && isPeak(strength, width, i, 2)) peaks.push(i);
    }
  peaks.sort((a, b) => strength[b] - strength[a]);
  const least = options.leastStrength * (strength[peaks[peaks.length >> 1]] ?? 0);
  const kept: number[] = [];
  for (const i of peaks) {
    if (kept.length === options.most || strength[i] < least) break;
    const far = (j: number): boolean =>
      Math.hypot((i % width) - (j % width), Math.floor(i / width) - Math.floor(j / width)) >= reach;
    if (kept.every(far)) kept.push(i);
  }
  return kept.map((i) => ({ x: xOf(relief, i % width), y: yOf(relief, Math.floor(i / width)) }));
}

function isPeak(values: Float32Array, width: number, i: number, reach: number): boolean {
  for (let dy = -reach; dy <= reach; dy++)
    for (let dx = -reach; dx <= reach; dx++) if (values[i + dy * width + dx] > values[i]) return false;
  return true;
}

/** The smaller eigenvalue of the averaged structure tensor, mm²/mm²; 0 without data. */
function cornerStrength(relief: HeightGrid, radiusMm: number): Float32Array {
  const { width, z, mask, pitch } = relief;
  const products = [new Float32Array(z.length), new Float32Array(z.length), new Float32Array(z.length)];
  const valid = new Uint8Array(z.length);
  for (let i = width; i < z.length - width; i++) {
    if (!(mask[i] && mask[i - 1] && mask[i + 1] && mask[i - width] && mask[i + width])) continue;
    const gx = slopeX(z, i, pitch);
    const gy = slopeY(z, i, width, pitch);
    valid[i] = 1;
    products[0][i] = gx * gx;
    products[1][i] = gx * gy;
    products[2][i] = gy * gy;
  }
  // A Gaussian with cut-off λ averages over about ±λ/3.
  const [xx, xy, yy] = products.map((values) => gaussianFilter(withHeights(relief, values, valid), 2.5 * radiusMm).z);
  return xx.map((_, i) => (valid[i] ? (xx[i] + yy[i]) / 2 - Math.hypot((xx[i] - yy[i]) / 2, xy[i]) : 0));
}
