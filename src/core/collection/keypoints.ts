import { distanceTransform, type HeightGrid, xOf, yOf } from '../geometry/index.ts';
import type { Level } from './scaleSpace.ts';

/** A place where the relief stands out at one scale. Cells and rungs of the ladder are fractions. */
export interface Keypoint {
  readonly col: number;
  readonly row: number;
  readonly x: number;
  readonly y: number;
  readonly level: number;
  readonly sigmaMm: number;
  readonly up: boolean;
  /** How far it stands out, mm. */
  readonly response: number;
}

export const keypointDefaults = {
  /** Greatest ratio of principal curvatures: strokes without an end or a crossing are places along which nothing is fixed. */
  mostElongated: 10,
  /** Distance from the end of the data, in σ. */
  margin: 2,
  /** Cells that the places are spread over, along the longer side. */
  spreadOver: 8,
};

/**
 * Extrema of the difference of Gaussians D = L(σ_{k+1}) − L(σ_k) over place and scale, refined by a parabola in each direction; strokes
 * without an end left out by the ratio of curvatures, and places near the end of the data. At most `most`, spread over the face: in each
 * part of it the strongest first. Source: Lowe, IJCV 60(2), 2004, §3–4.
 */
export function keypoints(
  grid: HeightGrid,
  levels: readonly Level[],
  most: number,
  options = keypointDefaults,
): Keypoint[] {
  const { width, height, mask, pitch } = grid;
  const far = distanceTransform(mask, width);
  const dog = levels.slice(1).map(({ z }, k) => z.map((value, i) => value - levels[k].z[i]));
  const found: Keypoint[] = [];
  for (let k = 1; k < dog.length - 1; k++) {
    const sigmaMm = levels[k].sigmaMm;
    const margin = (options.margin * sigmaMm) / pitch;
    for (let row = 1; row < height - 1; row++)
      for (let col = 1; col < width - 1; col++) {
        const i = row * width + col;
        if (!mask[i] || far[i] <= margin || !isExtreme(dog, k, i, width)) continue;
        const point = refined(dog, k, i, width, options.mostElongated);
        if (!point) continue;
        const [dc, dr, dk, response] = point;
        found.push({
          col: col + dc,
          row: row + dr,
          x: xOf(grid, col + dc),
          y: yOf(grid, row + dr),
          level: k,
          sigmaMm: sigmaMm * 2 ** (dk * Math.log2(levels[1].sigmaMm / levels[0].sigmaMm)),
          // L(σ_{k+1}) − L(σ_k) is negative on what stands up.
          up: response < 0,
          response: Math.abs(response),
        });
      }
  }
  return spread(found, grid, most, options.spreadOver);
}

function isExtreme(dog: readonly Float32Array[], k: number, i: number, width: number): boolean {
  const value = dog[k][i];
  const sign = value > 0 ? 1 : -1;
  for (let dk = -1; dk <= 1; dk++) {
    const layer = dog[k + dk];
    for (let dr = -width; dr <= width; dr += width)
      for (let dc = -1; dc <= 1; dc++) {
        if (dk === 0 && dr === 0 && dc === 0) continue;
        if (sign * layer[i + dr + dc] >= sign * value) return false;
      }
  }
  return true;
}

/** Offsets in column, row and rung, and the value there; null where the place is a stroke. */
function refined(dog: readonly Float32Array[], k: number, i: number, width: number, mostElongated: number) {
  const d = dog[k];
  const [xx, yy] = [d[i + 1] - 2 * d[i] + d[i - 1], d[i + width] - 2 * d[i] + d[i - width]];
  const xy = (d[i + width + 1] - d[i + width - 1] - d[i - width + 1] + d[i - width - 1]) / 4;
  const kk = dog[k + 1][i] - 2 * d[i] + dog[k - 1][i];
  const det = xx * yy - xy * xy;
  const trace = xx + yy;
  if (det <= 0 || (trace * trace) / det > (mostElongated + 1) ** 2 / mostElongated) return null;
  const vertex = (before: number, after: number, second: number): number =>
    second === 0 ? 0 : Math.max(-0.6, Math.min(0.6, (before - after) / (2 * second)));
  const dc = vertex(d[i - 1], d[i + 1], xx);
  const dr = vertex(d[i - width], d[i + width], yy);
  const dk = vertex(dog[k - 1][i], dog[k + 1][i], kk);
  return [dc, dr, dk, d[i]] as const;
}

/** Round by round the strongest left of every part of the face, so that one deep figure or one wound does not take all. */
function spread(found: Keypoint[], grid: HeightGrid, most: number, over: number): Keypoint[] {
  found.sort((a, b) => b.response - a.response || a.row - b.row || a.col - b.col);
  if (found.length <= most) return found;
  const side = Math.max(grid.width, grid.height) / over;
  const parts = new Map<number, number>();
  const round = found.map(({ col, row }) => {
    const part = Math.floor(row / side) * 1000 + Math.floor(col / side);
    const taken = parts.get(part) ?? 0;
    parts.set(part, taken + 1);
    return taken;
  });
  const order = found.map((_, i) => i).sort((a, b) => round[a] - round[b] || a - b);
  return order.slice(0, most).map((i) => found[i]);
}
