import type { Similarity } from '../../src/core/geometry/index.ts';
import { type Field, heightAndSlope, heightAt } from './field.ts';
import { designFromScan, type Placement } from './placement.ts';

/**
 * Signed distance from each subject point (file, mm, without noise) to the reference's true surface, mm, after the
 * similarity. The point is carried into the reference's design frame, where the surface is the height field `relief`;
 * the closest point is searched on the cells within the first estimate of the distance and then refined. The warp
 * of the reference is undone before measuring, which changes distances by its slope, 1 to 2 % at most.
 *
 * `sign` is +1 where the subject is positive (it stands higher above the reference's relief) and −1 where negative.
 * NaN where `wanted` is 0.
 */
export function differencesFrom(
  points: Float64Array,
  wanted: Uint8Array,
  referenceFromSubject: Similarity,
  reference: Placement,
  relief: Field,
  sign: 1 | -1,
): Float32Array {
  const out = new Float32Array(points.length / 3).fill(Number.NaN);
  const toDesign = designFromScan(reference, referenceFromSubject);
  const design = new Float64Array(3);
  const cellOffsets = nearCells(24);
  for (let i = 0; i < out.length; i++) {
    if (!wanted[i]) continue;
    toDesign(points[3 * i], points[3 * i + 1], points[3 * i + 2], design);
    out[i] = sign * reference.size * signedDistance(relief, design[0], design[1], design[2], cellOffsets);
  }
  return out;
}

/** Offsets of cells around one, nearest first: i, j, squared distance. */
function nearCells(reach: number): Int32Array {
  const list: Array<[number, number, number]> = [];
  for (let j = -reach; j <= reach; j++)
    for (let i = -reach; i <= reach; i++) if (i * i + j * j <= reach * reach) list.push([i, j, i * i + j * j]);
  list.sort((a, b) => a[2] - b[2]);
  return Int32Array.from(list.flat());
}

function signedDistance(relief: Field, x: number, y: number, z: number, offsets: Int32Array): number {
  const { width, height, pitch, left, bottom, z: heights } = relief;
  const above = z - heightAt(relief, x, y);
  const i0 = Math.round((x - left) / pitch);
  const j0 = Math.round((y - bottom) / pitch);
  let best = above * above;
  let bestX = x;
  let bestY = y;
  for (let k = 0; k < offsets.length; k += 3) {
    // No cell farther out in the plane can be closer than the best so far.
    if ((Math.sqrt(offsets[k + 2]) - 0.71) * pitch > Math.sqrt(best)) break;
    const i = i0 + offsets[k];
    const j = j0 + offsets[k + 1];
    if (i < 0 || j < 0 || i >= width || j >= height) continue;
    const cx = left + i * pitch;
    const cy = bottom + j * pitch;
    const squared = (cx - x) ** 2 + (cy - y) ** 2 + (heights[j * width + i] - z) ** 2;
    if (squared < best) {
      best = squared;
      bestX = cx;
      bestY = cy;
    }
  }
  const refined = refine(relief, x, y, z, bestX, bestY, best);
  return above < 0 ? -refined : refined;
}

/** Gauss–Newton steps on the smooth height field from the closest cell; kept only while they come closer. */
function refine(relief: Field, x: number, y: number, z: number, x0: number, y0: number, squared0: number): number {
  let u = x0;
  let v = y0;
  let best = squared0;
  heightAndSlope(relief, u, v, surface);
  for (let step = 0; step < 4; step++) {
    const [h, gx, gy] = surface;
    // Foot of the point on the tangent plane through (u, v, h).
    const off = (z - h - gx * (x - u) - gy * (y - v)) / (1 + gx * gx + gy * gy);
    u = x + off * gx;
    v = y + off * gy;
    const squared = (u - x) ** 2 + (v - y) ** 2 + (heightAndSlope(relief, u, v, surface) - z) ** 2;
    if (squared >= best) break;
    const enough = best - squared < 1e-3 * best;
    best = squared;
    if (enough) break;
  }
  return Math.sqrt(best);
}

const surface = new Float64Array(3);
