import type { Target } from '../../src/core/fit/correspondenceGround.ts';
import type { FacePoints } from '../../src/core/fit/points.ts';
import {
  apply,
  buildSurfaceIndex,
  type HeightGrid,
  identity,
  type Mesh,
  rotate,
  type Similarity,
  seededRandom,
  type Vec3,
  xOf,
  yOf,
} from '../../src/core/geometry/index.ts';
import { gridOf as drawn } from '../face/grids.ts';

/** Height over the plane, mm, and its slopes. */
export interface Relief {
  height(x: number, y: number): number;
  slope(x: number, y: number): readonly [number, number];
}

/** A relief from its height alone; slopes by central differences over 2 µm. */
export const reliefOf = (height: (x: number, y: number) => number): Relief => ({
  height,
  slope: (x, y) => [
    (height(x + 1e-3, y) - height(x - 1e-3, y)) / 2e-3,
    (height(x, y + 1e-3) - height(x, y - 1e-3)) / 2e-3,
  ],
});

interface Bump {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Round bumps of many sizes scattered over a disc: nothing repeats, every motion is felt. */
export function bumps(seed: number, radiusMm: number, count = 60, heightMm = 0.4): Relief {
  const random = seededRandom(seed);
  const list: Bump[] = Array.from({ length: count }, () => ({
    x: random.between(-radiusMm, radiusMm),
    y: random.between(-radiusMm, radiusMm),
    width: random.between(0.04, 0.12) * radiusMm,
    height: random.between(-heightMm, heightMm),
  }));
  // Beyond six widths a bump is lower than a nanometre.
  const near = (x: number, y: number): Bump[] =>
    list.filter((b) => Math.abs(x - b.x) < 6 * b.width && Math.abs(y - b.y) < 6 * b.width);
  const at = (b: Bump, x: number, y: number): number =>
    b.height * Math.exp(-((x - b.x) ** 2 + (y - b.y) ** 2) / (2 * b.width ** 2));
  return {
    height: (x, y) => near(x, y).reduce((sum, b) => sum + at(b, x, y), 0),
    slope(x, y) {
      let [sx, sy] = [0, 0];
      for (const b of near(x, y)) {
        const steep = at(b, x, y) / b.width ** 2;
        sx -= steep * (x - b.x);
        sy -= steep * (y - b.y);
      }
      return [sx, sy];
    },
  };
}

/** The relief drawn on cells of `pitch` mm over a square of half side `half`; data where `inside` says so. */
export const gridOf = (
  { height }: Relief,
  half: number,
  pitch: number,
  inside?: (x: number, y: number) => boolean,
): HeightGrid => drawn(half, pitch, height, inside);

/** Triangles over the cells of a full grid, with the exact normals of the relief at their corners. */
export function meshOf({ slope }: Relief, grid: HeightGrid): { mesh: Mesh; normals: Float32Array } {
  const { width, height } = grid;
  const positions = new Float32Array(3 * grid.z.length);
  const normals = new Float32Array(positions.length);
  const triangles: number[] = [];
  for (let row = 0, i = 0; row < height; row++)
    for (let col = 0; col < width; col++, i++) {
      const [x, y] = [xOf(grid, col), yOf(grid, row)];
      positions.set([x, y, grid.z[i]], 3 * i);
      normals.set(normalAt(slope(x, y)), 3 * i);
      // Rows run downward: counter-clockwise seen from above is down, right, up.
      if (row + 1 < height && col + 1 < width) triangles.push(i, i + width, i + width + 1, i, i + width + 1, i + 1);
    }
  return { mesh: { positions, triangles: Uint32Array.from(triangles), offset: [0, 0, 0] }, normals };
}

export function normalAt([sx, sy]: readonly [number, number]): Vec3 {
  const length = Math.hypot(sx, sy, 1);
  return [-sx / length, -sy / length, 1 / length];
}

/** The relief as something to fit to. */
export function targetOf(relief: Relief, half: number, pitch: number): Target {
  const grid = gridOf(relief, half, pitch);
  const { mesh, normals } = meshOf(relief, grid);
  return { index: buildSurfaceIndex(mesh, { normals }), faceFromScan: identity, grid, inside: grid.mask };
}

/** Points with normals on a relief, on even cells of a disc or annulus, then moved by `subjectFromReference`. */
export function pointsOn(
  { height, slope }: Relief,
  pitch: number,
  radiusMm: number,
  subjectFromReference: Similarity = identity,
  innerMm = 0,
): FacePoints {
  const positions: number[] = [];
  const normals: number[] = [];
  for (let y = -radiusMm; y <= radiusMm; y += pitch)
    for (let x = -radiusMm; x <= radiusMm; x += pitch) {
      const r = Math.hypot(x, y);
      if (r > radiusMm || r < innerMm) continue;
      positions.push(...apply(subjectFromReference, [x, y, height(x, y)]));
      normals.push(...rotate(subjectFromReference.rotation, normalAt(slope(x, y))));
    }
  return { positions: Float64Array.from(positions), normals: Float64Array.from(normals) };
}
