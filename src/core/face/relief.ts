import {
  columnOf,
  dilate,
  type HeightGrid,
  invert,
  type Mesh,
  medianEdge,
  quantile,
  rowOf,
  type Similarity,
  withHeights,
  xOf,
  yOf,
} from '../geometry/index.ts';
import type { FlatPart } from './candidate.ts';
import { heightsSeen } from './raster.ts';

export const reliefDefaults = {
  /** Cell side as a share of the scan's median triangle side. */
  pitchPerEdge: 1,
  /** Greatest number of cells along a side. */
  mostAcross: 2000,
  /** A cell farther from the face's usual heights than this many times their span, and this share of the size, is none of its. */
  farSpans: 2,
  farShare: 0.05,
};

/**
 * The relief map of a flat part at the scan's own resolution, in the face frame.
 *
 * `faceFromPart` turns and shifts in the plane only. Cells outside the part's region, as it was found on the coarse
 * view, carry no data, nor do those far off its heights.
 */
export function reliefMap(
  mesh: Mesh,
  part: FlatPart,
  faceFromScan: Similarity,
  faceFromPart: Similarity,
  options = reliefDefaults,
): HeightGrid {
  const box = boxOf(part, faceFromPart);
  const across = Math.max(box.xMax - box.xMin, box.yMax - box.yMin);
  const pitch = Math.max(options.pitchPerEdge * medianEdge(mesh), across / options.mostAcross);
  const grid = heightsSeen(mesh, faceFromScan, () => ({ ...box, pitch }));
  return withoutFarCells(keepRegion(grid, part, invert(faceFromPart)), across, options);
}

function boxOf({ grid, region }: FlatPart, faceFromPart: Similarity) {
  let [xMin, xMax, yMin, yMax] = [Infinity, -Infinity, Infinity, -Infinity];
  const [a, b, , c, d, , , ,] = faceFromPart.rotation;
  const [tx, ty] = faceFromPart.translation;
  for (let row = 0, i = 0; row < grid.height; row++)
    for (let col = 0; col < grid.width; col++, i++) {
      if (!region[i]) continue;
      const x = xOf(grid, col);
      const y = yOf(grid, row);
      xMin = Math.min(xMin, a * x + b * y + tx);
      xMax = Math.max(xMax, a * x + b * y + tx);
      yMin = Math.min(yMin, c * x + d * y + ty);
      yMax = Math.max(yMax, c * x + d * y + ty);
    }
  const margin = 1.5 * grid.pitch;
  return { xMin: xMin - margin, xMax: xMax + margin, yMin: yMin - margin, yMax: yMax + margin };
}

/** Drops cells that do not lie over the part's region. */
function keepRegion(grid: HeightGrid, part: FlatPart, partFromFace: Similarity): HeightGrid {
  return cellsOver(grid, part.grid, dilate(part.region, part.grid.width), partFromFace);
}

function cellsOver(grid: HeightGrid, coarse: HeightGrid, near: Uint8Array, partFromFace: Similarity): HeightGrid {
  const mask = new Uint8Array(grid.mask.length);
  const z = new Float32Array(grid.z.length);
  const [a, b, , c, d, , , ,] = partFromFace.rotation;
  const [tx, ty] = partFromFace.translation;
  for (let row = 0, i = 0; row < grid.height; row++)
    for (let col = 0; col < grid.width; col++, i++) {
      if (!grid.mask[i]) continue;
      const x = xOf(grid, col);
      const y = yOf(grid, row);
      const u = Math.round(columnOf(coarse, a * x + b * y + tx));
      const v = Math.round(rowOf(coarse, c * x + d * y + ty));
      if (u < 0 || v < 0 || u >= coarse.width || v >= coarse.height || !near[v * coarse.width + u]) continue;
      mask[i] = 1;
      z[i] = grid.z[i];
    }
  return withHeights(grid, z, mask);
}

/** Drops what shows through a hole of the scan, the inside of the back, and what floats over the face. */
function withoutFarCells(grid: HeightGrid, sizeMm: number, { farSpans, farShare }: typeof reliefDefaults): HeightGrid {
  const heights: number[] = [];
  // Some 20,000 cells tell the usual heights; a stride that shares no factor with usual widths.
  const stride = Math.max(1, Math.floor(grid.z.length / 20_000)) | 1;
  for (let i = 0; i < grid.z.length; i += stride) if (grid.mask[i]) heights.push(grid.z[i]);
  const [low, high] = [quantile(heights, 0.01), quantile(heights, 0.99)];
  const far = Math.max(farSpans * (high - low), farShare * sizeMm);
  return between(grid, low - far, high + far);
}

function between(grid: HeightGrid, low: number, high: number): HeightGrid {
  const near = new Uint8Array(grid.mask.length);
  const z = new Float32Array(grid.z.length);
  for (let i = 0; i < near.length; i++)
    if (grid.mask[i] && grid.z[i] > low && grid.z[i] < high) {
      near[i] = 1;
      z[i] = grid.z[i];
    }
  return withHeights(grid, z, near);
}
