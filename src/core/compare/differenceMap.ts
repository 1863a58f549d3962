import { type Face, imageHull, insidePolygon } from '../face/index.ts';
import { emptyGrid, gridOn, type HeightGrid, type Mesh, xOf } from '../geometry/index.ts';
import { movePoints, type SubjectMotion } from './motion.ts';

/**
 * Per-vertex depth differences as a grid over the reference's face plane, in its own frame: each triangle of the subject
 * whose three corners have a difference is laid on the plane and the difference taken linearly across it at the cells'
 * centres; where several cover a cell (undercuts, doubled shells), their mean. The mask is 0 where none does, so a hole
 * in either scan stays a hole, and beyond the reference's image (`imageHull`): what is told of a map is of no lip, bevel or cake. `pitch` in mm.
 */
export function differenceMap(
  face: Face,
  subject: Mesh,
  motion: SubjectMotion,
  perVertexMm: Float32Array,
  pitch: number,
): HeightGrid {
  const { relief } = face;
  const right = xOf(relief, relief.width - 1);
  const bottom = relief.top - (relief.height - 1) * relief.pitch;
  const grid = emptyGrid(relief.left, right, bottom, relief.top, pitch);
  const at = gridPlaces(subject, motion, grid);
  const count = new Uint16Array(grid.z.length);
  const t = subject.triangles;
  for (let i = 0; i < t.length; i += 3) {
    const a = t[i];
    const b = t[i + 1];
    const c = t[i + 2];
    const sum = perVertexMm[a] + perVertexMm[b] + perVertexMm[c];
    if (!Number.isNaN(sum)) layTriangle(grid, count, at, perVertexMm, a, b, c);
  }
  const inside = insidePolygon(grid, imageHull(face));
  for (let i = 0; i < count.length; i++) {
    grid.mask[i] = count[i] > 0 ? inside[i] : 0;
    grid.z[i] = grid.mask[i] ? grid.z[i] / count[i] : 0;
  }
  return grid;
}

/** Column and row, in cells, of each vertex of the subject. */
function gridPlaces(subject: Mesh, motion: SubjectMotion, grid: HeightGrid): Float32Array {
  const n = subject.positions.length / 3;
  const out = new Float32Array(2 * n);
  const chunk = 4096;
  const moved = new Float64Array(3 * chunk);
  for (let from = 0; from < n; from += chunk) {
    const to = Math.min(n, from + chunk);
    movePoints(motion, subject.positions, from, to, moved);
    for (let i = from, k = 0; i < to; i++, k += 3) {
      out[2 * i] = (moved[k] - grid.left) / grid.pitch;
      out[2 * i + 1] = (grid.top - moved[k + 1]) / grid.pitch;
    }
  }
  return out;
}

/** Adds the triangle's value to every cell whose centre it covers, edges included. */
function layTriangle(
  { width, height, z }: HeightGrid,
  count: Uint16Array,
  at: Float32Array,
  value: Float32Array,
  a: number,
  b: number,
  c: number,
): void {
  const ax = at[2 * a];
  const ay = at[2 * a + 1];
  const bx = at[2 * b] - ax;
  const by = at[2 * b + 1] - ay;
  const cx = at[2 * c] - ax;
  const cy = at[2 * c + 1] - ay;
  const area = bx * cy - by * cx;
  if (area === 0) return;
  const colFrom = Math.max(0, Math.ceil(ax + Math.min(0, bx, cx)));
  const colTo = Math.min(width - 1, Math.floor(ax + Math.max(0, bx, cx)));
  const rowFrom = Math.max(0, Math.ceil(ay + Math.min(0, by, cy)));
  const rowTo = Math.min(height - 1, Math.floor(ay + Math.max(0, by, cy)));
  const slack = -1e-6;
  for (let row = rowFrom; row <= rowTo; row++)
    for (let col = colFrom; col <= colTo; col++) {
      const x = col - ax;
      const y = row - ay;
      const wb = (x * cy - y * cx) / area;
      const wc = (y * bx - x * by) / area;
      if (wb < slack || wc < slack || wb + wc > 1 - slack) continue;
      const i = row * width + col;
      z[i] += value[a] + wb * (value[b] - value[a]) + wc * (value[c] - value[a]);
      count[i]++;
    }
}

/**
 * The same cells seen in the impression's sense: a negative's face is seen from behind, so columns run the other way.
 * Depth differences keep their sign, which does not depend on the side one looks from.
 */
export function inImpressionSense(grid: HeightGrid, { sense }: Pick<Face, 'sense'>): HeightGrid {
  if (sense === 'relief') return grid;
  const { width } = grid;
  const z = new Float32Array(grid.z.length);
  const mask = new Uint8Array(grid.mask.length);
  for (let i = 0; i < z.length; i++) {
    const col = i % width;
    const to = i - col + (width - 1 - col);
    z[to] = grid.z[i];
    mask[to] = grid.mask[i];
  }
  return gridOn({ ...grid, left: -xOf(grid, width - 1) }, z, mask);
}
