import { type Face, heightsSeen, insidePolygon, longSide } from '../face/index.ts';
import {
  columnOf,
  compose,
  dilate,
  emptyGrid,
  erode,
  gaussianFilter,
  type HeightGrid,
  type Mesh,
  rowOf,
  type Similarity,
  slopeX,
  slopeY,
  withHeights,
  xOf,
  yOf,
} from '../geometry/index.ts';
import { roughnessOf } from './noise.ts';
import { cutoffOf } from './scales.ts';
import type { ChangeSide } from './types.ts';

export const gridDefaults = {
  /** At most this many cells along the face's long side. */
  mostAcross: 900,
  /** Cells left out beside an edge or a hole: interpolation ends there, and two scans end in different places. */
  edgeCells: 3,
  /** Steeper than this (tangent) a height is read to no purpose: a step aside of one cell moves it by more than relief. */
  steepest: 2,
  /** Heights farther apart than this share of the face's size are not the same surface. */
  farShare: 0.08,
};

/** The cells that both dates are laid on: the earlier's face plane, in its own frame. */
export interface Ground {
  /** Heights of the earlier, mm; the mask is where its face is. */
  readonly earlier: HeightGrid;
  /** Slopes of the earlier, smoothed over a cell. */
  readonly gx: Float32Array;
  readonly gy: Float32Array;
  /** 1 where a height is worth comparing: off the edges and not too steep. */
  readonly sound: Uint8Array;
  /** How far a cell's neighbours stray from a plane, mm: see `roughnessOf`. */
  readonly roughness: Float32Array;
  /** Laplacian of the surface over about a cell, 1/mm: what a blunter scan lacks in part. */
  readonly curvature: Float32Array;
  readonly radiusMm: number;
}

/** The earlier's face as the ground of a comparison, in cells of `pitchMm`. */
export function groundOf({ mesh, face }: ChangeSide, pitchMm: number, options = gridDefaults): Ground {
  const empty = windowOf(face, pitchMm);
  const earlier = onFace(rasteriseOn(mesh, face.faceFromScan, empty), face);
  const [gx, gy] = slopesOf(earlier);
  const inner = erode(earlier.mask, earlier.width, options.edgeCells);
  const sound = inner.map((m, i) => (m && Math.hypot(gx[i], gy[i]) < options.steepest ? 1 : 0));
  return {
    earlier,
    gx,
    gy,
    sound,
    roughness: roughnessOf(earlier, gx, gy, sound),
    curvature: curvatureOf(earlier, sound),
    radiusMm: longSide(face) / 2,
  };
}

/** From two Gaussian means, whose difference for waves long against them is (σ₂² − σ₁²)/2 ∇²z. */
function curvatureOf(earlier: HeightGrid, sound: Uint8Array): Float32Array {
  const cells = [0.7, 1.5];
  const [fine, coarse] = cells.map((n) => gaussianFilter(earlier, cutoffOf(n * earlier.pitch)).z);
  const half = ((cells[1] ** 2 - cells[0] ** 2) * earlier.pitch ** 2) / 2;
  return fine.map((z, i) => (sound[i] ? (coarse[i] - z) / half : 0));
}

/** The same ground with the curvature of the mean of both dates. */
export function withMeanCurvature(ground: Ground, later: HeightGrid): Ground {
  const { earlier, sound } = ground;
  const z = earlier.z.map((height, i) => (later.mask[i] ? (height + later.z[i]) / 2 : height));
  return { ...ground, curvature: curvatureOf(withHeights(earlier, z), sound) };
}

/** Cells as fine as the coarser of the two scans. */
export const pitchOf = (earlier: Face, later: Face, { mostAcross } = gridDefaults): number =>
  Math.max(earlier.relief.pitch, later.relief.pitch, longSide(earlier) / mostAcross);

/** Heights of another scan on the same cells under a motion of its scan to the ground's face frame; masked where it is no counterpart. */
export function laidOn(ground: Ground, mesh: Mesh, faceFromScan: Similarity, options = gridDefaults): HeightGrid {
  const { earlier, radiusMm } = ground;
  const later = rasteriseOn(mesh, faceFromScan, earlier);
  const far = 2 * options.farShare * radiusMm;
  const mask = later.mask.map((m, i) => (m && earlier.mask[i] && Math.abs(later.z[i] - earlier.z[i]) < far ? 1 : 0));
  return withHeights(later, later.z, mask);
}

/** Ground's face frame ← the other scan, for a rigid motion of scan to scan. */
export const toFace = (face: Face, earlierFromLater: Similarity): Similarity =>
  compose(face.faceFromScan, earlierFromLater);

function windowOf({ relief }: Face, pitch: number): HeightGrid {
  const right = xOf(relief, relief.width - 1);
  const bottom = yOf(relief, relief.height - 1);
  return emptyGrid(relief.left, right, bottom, relief.top, pitch);
}

function rasteriseOn(mesh: Mesh, faceFromScan: Similarity, grid: HeightGrid): HeightGrid {
  const drawn = heightsSeen(mesh, faceFromScan, () => ({
    xMin: grid.left,
    xMax: xOf(grid, grid.width - 1),
    yMin: yOf(grid, grid.height - 1),
    yMax: grid.top,
    pitch: grid.pitch,
  }));
  // Rounding may add a row or a column.
  return drawn.width === grid.width && drawn.height === grid.height ? drawn : cropped(drawn, grid);
}

function cropped(from: HeightGrid, to: HeightGrid): HeightGrid {
  const z = new Float32Array(to.width * to.height);
  const mask = new Uint8Array(z.length);
  for (let row = 0; row < Math.min(to.height, from.height); row++)
    for (let col = 0; col < Math.min(to.width, from.width); col++) {
      z[row * to.width + col] = from.z[row * from.width + col];
      mask[row * to.width + col] = from.mask[row * from.width + col];
    }
  return withHeights(to, z, mask);
}

/** Only where the face's own relief map has data and within its outline. */
function onFace(grid: HeightGrid, { relief, outline }: Face): HeightGrid {
  const inside = insidePolygon(grid, outline.polygon);
  const mask = grid.mask.map((m, i) => {
    if (!m || !inside[i]) return 0;
    const col = Math.round(columnOf(relief, xOf(grid, i % grid.width)));
    const row = Math.round(rowOf(relief, yOf(grid, Math.floor(i / grid.width))));
    const on = col >= 0 && row >= 0 && col < relief.width && row < relief.height;
    return on && relief.mask[row * relief.width + col] ? 1 : 0;
  });
  return withHeights(grid, grid.z, mask);
}

function slopesOf(grid: HeightGrid): [Float32Array, Float32Array] {
  const { width, height, z, mask, pitch } = grid;
  const gx = new Float32Array(z.length);
  const gy = new Float32Array(z.length);
  for (let row = 1; row < height - 1; row++)
    for (let col = 1; col < width - 1; col++) {
      const i = row * width + col;
      if (!(mask[i] && mask[i - 1] && mask[i + 1] && mask[i - width] && mask[i + width])) continue;
      gx[i] = slopeX(z, i, pitch);
      gy[i] = slopeY(z, i, width, pitch);
    }
  return [gx, gy];
}

/** Cells within `cells` steps of a set. */
export function grown(region: Uint8Array, width: number, cells: number): Uint8Array {
  let out = region;
  for (let k = 0; k < cells; k++) out = dilate(out, width);
  return out;
}
