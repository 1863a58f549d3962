import { imageOf } from '../../src/core/face/image.ts';
import { type Face, findOutline, insidePolygon } from '../../src/core/face/index.ts';
import { noiseOf } from '../../src/core/face/noise.ts';
import { senseOf } from '../../src/core/face/sense.ts';
import {
  emptyGrid,
  type HeightGrid,
  identity,
  removeForm,
  turnGridOver,
  xOf,
  yOf,
} from '../../src/core/geometry/index.ts';
import type { Chance } from './chance.ts';
import { valueAt } from './lattice.ts';
import { type Made, onPiece } from './made.ts';

/** How an object lies and is scanned, without triangles: straight to the relief map. */
export interface Taking {
  readonly chance: Chance;
  readonly across: number;
  readonly noiseUm: number;
  readonly turnDeg: number;
  /** The file is wound the wrong way: the other sense is seen. */
  readonly reversed: boolean;
  readonly stated: boolean;
  readonly mirrored: boolean;
}

/**
 * The face of an object as `prepare` would give it, short of meshing: heights of the material, bent and shrunk, on a grid turned by
 * `turnDeg`, with white noise and holes; then outline, form, image, noise and sense by the core's own steps. A negative is
 * turned over; a mirrored file keeps its heights and runs the other way.
 */
export function faceOf(made: Made, how: Taking): Face {
  const seen = taken(made, how);
  const asFile = how.mirrored ? flippedX(seen) : seen;
  const relief = made.negative !== how.reversed ? turnGridOver(asFile) : asFile;
  const outline = findOutline(relief, relief.mask);
  const sizeMm = Math.max(outline.widthMm, outline.heightMm);
  const { detail } = removeForm(relief, 2);
  const read = senseOf(detail, sizeMm);
  const { shape, widthMm, heightMm, polygon, confidence } = outline;
  const inside = insidePolygon(relief, polygon);
  let [area, data] = [0, 0];
  for (let i = 0; i < inside.length; i++) {
    area += inside[i];
    data += inside[i] & relief.mask[i];
  }
  return {
    sense: how.stated ? (made.negative ? 'intaglio' : 'relief') : read.sense,
    senseConfidence: how.stated ? 1 : read.confidence,
    senseFrom: how.stated ? 'stated' : 'winding',
    faceFromScan: identity,
    upFrom: 'scan',
    outline: { shape, widthMm, heightMm, polygon, confidence },
    relief,
    detail,
    image: imageOf(relief, sizeMm, !(how.stated && made.negative)).image,
    ...noiseOf(detail),
    filled: area ? data / area : 0,
    holes: 0,
    candidates: [],
    candidate: 0,
  };
}

/** The heights in the impression's sense, the outside up. */
function taken(made: Made, { chance, across, noiseUm, turnDeg }: Taking): HeightGrid {
  const { halfWidth, halfHeight } = made.outline;
  const reach = 1.1 * Math.hypot(halfWidth, halfHeight) + 3;
  const grid = emptyGrid(-reach, reach, -reach, reach, (2 * halfHeight) / across);
  const [c, s] = [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)];
  const [sx, sy, sz] = made.scale;
  const holes = Array.from({ length: chance.whole(4) }, () => {
    const at = chance.range(0, 2 * Math.PI);
    const far = Math.sqrt(chance.unit());
    return [halfWidth * far * Math.cos(at), halfHeight * far * Math.sin(at), halfWidth * chance.range(0.02, 0.07)];
  });
  const bent = new Float64Array(3);
  const least = -0.25 * made.thicknessMm;
  for (let row = 0, i = 0; row < grid.height; row++)
    for (let col = 0; col < grid.width; col++, i++) {
      const [fx, fy] = [xOf(grid, col), yOf(grid, row)];
      const [px, py] = [(c * fx + s * fy) / sx, (-s * fx + c * fy) / sy];
      if (Math.abs(px) > halfWidth + 6 || Math.abs(py) > halfHeight + 6 || !onPiece(made, px, py)) continue;
      bent.fill(0);
      for (const bend of made.bends) bend(px, py, bent);
      const [x, y] = [px - bent[0], py - bent[1]];
      const z = valueAt(made.lattice, made.z, x, y);
      if ((valueAt(made.lattice, made.outside, x, y) > 0.3 && z < least) || !onPiece(made, x, y)) continue;
      if (holes.some(([hx, hy, r]) => Math.hypot(x - hx, y - hy) < r)) continue;
      grid.mask[i] = 1;
      grid.z[i] = sz * (z + bent[2]) + (noiseUm / 1000) * chance.gauss();
    }
  return cropped(grid);
}

/** The part with data, and two cells around it. */
function cropped(grid: HeightGrid): HeightGrid {
  let [c0, c1, r0, r1] = [grid.width, 0, grid.height, 0];
  for (let i = 0; i < grid.mask.length; i++) {
    if (!grid.mask[i]) continue;
    const [row, col] = [Math.floor(i / grid.width), i % grid.width];
    c0 = Math.min(c0, col);
    c1 = Math.max(c1, col);
    r0 = Math.min(r0, row);
    r1 = Math.max(r1, row);
  }
  [c0, r0] = [Math.max(0, c0 - 2), Math.max(0, r0 - 2)];
  [c1, r1] = [Math.min(grid.width - 1, c1 + 2), Math.min(grid.height - 1, r1 + 2)];
  const width = c1 - c0 + 1;
  const height = r1 - r0 + 1;
  const z = new Float32Array(width * height);
  const mask = new Uint8Array(width * height);
  for (let row = 0; row < height; row++) {
    const from = (row + r0) * grid.width + c0;
    z.set(grid.z.subarray(from, from + width), row * width);
    mask.set(grid.mask.subarray(from, from + width), row * width);
  }
  // The face's origin is the middle of what is there.
  const { pitch } = grid;
  return { width, height, pitch, left: (-(width - 1) * pitch) / 2, top: ((height - 1) * pitch) / 2, z, mask };
}

/** A reflection: x runs the other way, heights stay. */
function flippedX(grid: HeightGrid): HeightGrid {
  const over = turnGridOver(grid);
  return { ...over, z: over.z.map((h) => -h) };
}
