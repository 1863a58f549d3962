import type { HeightGrid } from '../../geometry/index.ts';

/** dz/dx and dz/dy on the cells of a grid, x to the right, y up the picture; 0 where there is no data. */
export interface Gradients {
  readonly dx: Float32Array;
  readonly dy: Float32Array;
}

/**
 * Horn's slopes from the 3 × 3 window a b c / d e f / g h i (row a b c at the top):
 * dz/dx = ((c + 2f + i) − (a + 2d + g)) / (8 cell), dz/dy = ((a + 2b + c) − (g + 2h + i)) / (8 cell), y up.
 * Beside missing data each of the three lines gives its one-sided step, or none, so that slopes run out to the edge.
 * Source: B. K. P. Horn, Proc. IEEE 69(1), 1981.
 */
export function gradients(grid: HeightGrid): Gradients {
  const dx = new Float32Array(grid.z.length);
  const dy = new Float32Array(grid.z.length);
  for (let r = 0; r < grid.height; r++) slopesAlong(grid, r, dx, dy);
  return { dx, dy };
}

function slopesAlong(grid: HeightGrid, r: number, dx: Float32Array, dy: Float32Array): void {
  const { width, mask } = grid;
  for (let c = 0; c < width; c++) {
    const i = r * width + c;
    if (!mask[i]) continue;
    if (inner(grid, r, c)) innerSlope(grid, i, dx, dy);
    else edgeSlope(grid, r, c, dx, dy);
  }
}

/** All nine cells carry data. */
function inner({ width, height, mask }: HeightGrid, r: number, c: number): boolean {
  if (r === 0 || c === 0 || r === height - 1 || c === width - 1) return false;
  const i = r * width + c;
  const u = i - width;
  const d = i + width;
  return (mask[u - 1] & mask[u] & mask[u + 1] & mask[i - 1] & mask[i + 1] & mask[d - 1] & mask[d] & mask[d + 1]) === 1;
}

function innerSlope({ width, z, pitch }: HeightGrid, i: number, dx: Float32Array, dy: Float32Array): void {
  const u = i - width;
  const d = i + width;
  const k = 1 / (8 * pitch);
  dx[i] = (z[u + 1] - z[u - 1] + 2 * (z[i + 1] - z[i - 1]) + z[d + 1] - z[d - 1]) * k;
  dy[i] = (z[u - 1] - z[d - 1] + 2 * (z[u] - z[d]) + z[u + 1] - z[d + 1]) * k;
}

function edgeSlope(grid: HeightGrid, r: number, c: number, dx: Float32Array, dy: Float32Array): void {
  const { width, height, z, mask, pitch } = grid;
  const at = (down: number, right: number): number => {
    const row = r + down;
    const col = c + right;
    if (row < 0 || col < 0 || row >= height || col >= width || !mask[row * width + col]) return Number.NaN;
    return z[row * width + col];
  };
  const i = r * width + c;
  dx[i] = meanStep((k, side) => at(k, side)) / pitch;
  dy[i] = -meanStep((k, side) => at(side, k)) / pitch;
}

/** Steps per cell in the three lines beside and through the centre, weighted 1, 2, 1, from what data there is. */
function meanStep(at: (line: number, side: number) => number): number {
  let sum = 0;
  let weight = 0;
  for (let line = -1; line <= 1; line++) {
    const before = at(line, -1);
    const middle = at(line, 0);
    const after = at(line, 1);
    let step = (after - before) / 2;
    if (Number.isNaN(step)) step = after - middle;
    if (Number.isNaN(step)) step = middle - before;
    if (Number.isNaN(step)) continue;
    const w = line === 0 ? 2 : 1;
    sum += w * step;
    weight += w;
  }
  return weight > 0 ? sum / weight : 0;
}

/** Unit normals n = (−dz/dx, −dz/dy, 1)/√(1 + (dz/dx)² + (dz/dy)²), one array per component; 0 without data. */
export interface Normals {
  readonly x: Float32Array;
  readonly y: Float32Array;
  readonly z: Float32Array;
}

/** Normals of the surface with its heights multiplied by `exaggeration`. */
export function normalsOf(grid: HeightGrid, exaggeration = 1): Normals {
  const { dx, dy } = gradients(grid);
  return { x: dx, y: dy, z: turnToNormals(dx, dy, grid.mask, exaggeration) };
}

/** Slopes become the first two components in place; what comes back is the third. */
function turnToNormals(dx: Float32Array, dy: Float32Array, mask: Uint8Array, exaggeration: number): Float32Array {
  const z = new Float32Array(dx.length);
  for (let i = 0; i < dx.length; i++) {
    if (!mask[i]) continue;
    const p = dx[i] * exaggeration;
    const q = dy[i] * exaggeration;
    const inverse = 1 / Math.sqrt(1 + p * p + q * q);
    dx[i] = -p * inverse;
    dy[i] = -q * inverse;
    z[i] = inverse;
  }
  return z;
}
