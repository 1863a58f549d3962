import { closestOnTriangle } from './closestOnTriangle.ts';
import type { ClosestSearch } from './closestSearch.ts';
import { type PlainIndex, plainIndex } from './plainIndex.ts';
import type { ColumnGrid } from './surfaceIndex.ts';
import type { SurfacePoint } from './surfacePoint.ts';

// The search in progress. A thread runs one at a time and a query must not allocate, so its state lives here, and
// numbers travel through these arrays rather than as arguments (see closestOnTriangle).
const point = new Float64Array(3);
const turned = new Float64Array(3);
const toward = new Float64Array(4);
const foot = new Float64Array(4);
const normal = new Float64Array(3);
const bestFoot = new Float64Array(4);
const bestNormal = new Float64Array(3);
/** Squared distance of the best so far; a hair above it, so that ties are looked at; a little more, for float32 normals. */
const best = new Float64Array(3);
let bestSlot = -1;
const stackNode = new Int32Array(512);
const stackSquared = new Float64Array(512);

/**
 * What `closestOnSurface` gives, without the kernel: its referee, which runs where the engine lets no kernel run and for surfaces of few
 * triangles. A branch of the search is left out only when its bounds are farther than the best found.
 */
export const closestPlainly: ClosestSearch = (given, x, y, z, maxDistance, dx, dy, dz, minCosine, out) => {
  const index = plainIndex(given);
  const { frame: f, triangleOf } = index;
  if (triangleOf.length === 0) return false;
  point[0] = x;
  point[1] = y;
  point[2] = z;
  toward[0] = dx;
  toward[1] = dy;
  toward[2] = dz;
  toward[3] = minCosine;
  turned[0] = f[0] * x + f[1] * y + f[2] * z;
  turned[1] = f[3] * x + f[4] * y + f[5] * z;
  turned[2] = f[6] * x + f[7] * y + f[8] * z;
  bestSlot = -1;
  setBest(index, maxDistance * maxDistance);
  if (out.slot >= 0 && out.slot < triangleOf.length) testSlots(index, out.slot, out.slot + 1);
  // The ordinary triangles first: what they give leaves little of the long ones to look at.
  for (let k = 0; k < index.grids.length; k++) search(index, index.grids[k], testOwnColumn(index, index.grids[k]));
  if (bestSlot < 0) return false;
  writeOut(index, out);
  return true;
};

/** Tests the column that p stands over, for a first bound; returns it, −1 where there is none. */
function testOwnColumn(index: PlainIndex, grid: ColumnGrid): number {
  const col = Math.floor((turned[0] - grid.left) / grid.cell);
  const row = Math.floor((turned[1] - grid.low) / grid.cell);
  const width = grid.levelWidth[0];
  if (col < 0 || row < 0 || col >= width || row >= grid.levelHeight[0]) return -1;
  const column = row * width + col;
  if (boxSquared(grid.bounds, 6 * column) < best[1]) testColumn(index, grid, column);
  return column;
}

/** Depth first, nearest first, from the lowest level of which at most 3 × 3 nodes can matter. */
function search(index: PlainIndex, grid: ColumnGrid, done: number): void {
  const { bounds, levelWidth, levelHeight, levelStart } = grid;
  let top = pushNear(grid);
  while (top > 0) {
    top--;
    if (stackSquared[top] >= best[1]) continue;
    const node = stackNode[top];
    const level = node >>> 26;
    const row = (node >>> 13) & 8191;
    const col = node & 8191;
    if (level === 0) {
      const column = row * levelWidth[0] + col;
      if (column !== done) testColumn(index, grid, column);
      continue;
    }
    const below = level - 1;
    const width = levelWidth[below];
    const rowEnd = Math.min(2 * row + 2, levelHeight[below]);
    const colEnd = Math.min(2 * col + 2, width);
    const base = top;
    for (let r = 2 * row; r < rowEnd; r++)
      for (let c = 2 * col; c < colEnd; c++) {
        const squared = boxSquared(bounds, 6 * (levelStart[below] + r * width + c));
        if (squared >= best[1]) continue;
        // Insertion keeps the nearest of the four on top.
        let k = top++;
        for (; k > base && stackSquared[k - 1] < squared; k--) {
          stackSquared[k] = stackSquared[k - 1];
          stackNode[k] = stackNode[k - 1];
        }
        stackSquared[k] = squared;
        stackNode[k] = (below << 26) | (r << 13) | c;
      }
  }
}

/** Puts the nodes that the ball around p can touch on the stack; cells there are at least as large as its radius. */
function pushNear(grid: ColumnGrid): number {
  const { bounds, levelWidth, levelHeight, levelStart, left, low, reach } = grid;
  const radius = Math.sqrt(best[1]) + reach;
  let level = 0;
  let cell = grid.cell;
  while (2 * cell < radius && level < levelWidth.length - 1) {
    cell *= 2;
    level++;
  }
  const width = levelWidth[level];
  const colFrom = Math.max(0, Math.floor((turned[0] - radius - left) / cell));
  const colTo = Math.min(width - 1, Math.floor((turned[0] + radius - left) / cell));
  const rowFrom = Math.max(0, Math.floor((turned[1] - radius - low) / cell));
  const rowTo = Math.min(levelHeight[level] - 1, Math.floor((turned[1] + radius - low) / cell));
  let top = 0;
  for (let row = rowFrom; row <= rowTo; row++)
    for (let col = colFrom; col <= colTo; col++) {
      const squared = boxSquared(bounds, 6 * (levelStart[level] + row * width + col));
      if (squared >= best[1]) continue;
      stackSquared[top] = squared;
      stackNode[top++] = (level << 26) | (row << 13) | col;
    }
  return top;
}

/** Normals are kept in float32: a plane distance is off by up to 10⁻⁷ of the distance from the disc's centre. */
const normalSlack = 1e-6;

function setBest(index: PlainIndex, squared: number): void {
  const distance = Math.sqrt(squared);
  best[0] = squared;
  const near = distance + index.tie;
  const wide = near + normalSlack * (distance + index.reach);
  best[1] = near * near;
  best[2] = wide * wide;
}

function boxSquared(b: Float32Array, at: number): number {
  const u = turned[0];
  const v = turned[1];
  const w = turned[2];
  const du = Math.max(b[at] - u, u - b[at + 3], 0);
  const dv = Math.max(b[at + 1] - v, v - b[at + 4], 0);
  const dw = Math.max(b[at + 2] - w, w - b[at + 5], 0);
  return du * du + dv * dv + dw * dw;
}

function testColumn(index: PlainIndex, grid: ColumnGrid, column: number): void {
  const { columnStart, blockStart, blockBounds } = grid;
  const from = columnStart[column];
  const to = columnStart[column + 1];
  for (let block = from; block < to; block++) {
    if (to > from + 1 && boxSquared(blockBounds, 6 * block) >= best[1]) continue;
    testSlots(index, blockStart[block], blockStart[block + 1]);
  }
}

function testSlots(index: PlainIndex, from: number, to: number): void {
  const { corners, discs } = index;
  const x = point[0];
  const y = point[1];
  const z = point[2];
  for (let slot = from; slot < to; slot++) {
    // The triangle lies in a disc; the distance from that is a lower bound that costs little.
    const k = 8 * slot;
    const ex = x - discs[k];
    const ey = y - discs[k + 1];
    const ez = z - discs[k + 2];
    const plane = ex * discs[k + 4] + ey * discs[k + 5] + ez * discs[k + 6];
    const plane2 = plane * plane;
    const left = best[2] - plane2;
    if (left <= 0) continue;
    const reach = discs[k + 3] + Math.sqrt(left);
    if (ex * ex + ey * ey + ez * ez - plane2 > reach * reach + normalSlack * plane2) continue;
    closestOnTriangle(corners, 9 * slot, point, foot);
    if (foot[3] < best[1]) take(index, slot);
  }
}

/** Makes the foot on `slot` the best unless it loses a tie or its normal is not compatible. */
function take(index: PlainIndex, slot: number): void {
  const less = Math.sqrt(best[0]) - Math.sqrt(foot[3]);
  if (bestSlot >= 0 && less <= index.tie && !winsTie(index, slot)) return;
  normalAt(index, slot);
  if (normal[0] * toward[0] + normal[1] * toward[1] + normal[2] * toward[2] < toward[3]) return;
  setBest(index, foot[3]);
  bestSlot = slot;
  bestFoot.set(foot);
  bestNormal.set(normal);
}

/** Whether the triangle in `slot` comes before the best one, which is equally far. */
function winsTie(index: PlainIndex, slot: number): boolean {
  const more = facing(index, slot) - facing(index, bestSlot);
  if (Math.abs(more) > normalSlack * (Math.sqrt(best[0]) + index.reach)) return more > 0;
  const t = index.corners;
  const a = 9 * slot;
  const b = 9 * bestSlot;
  for (let k = 0; k < 3; k++) {
    const difference = t[a + k] + t[a + 3 + k] + t[a + 6 + k] - (t[b + k] + t[b + 3 + k] + t[b + 6 + k]);
    if (Math.abs(difference) > normalSlack * index.reach) return difference < 0;
  }
  return false;
}

/** Distance of p from the plane of a slot's triangle. */
function facing(index: PlainIndex, slot: number): number {
  const { corners: t, discs: d } = index;
  const a = 9 * slot;
  const n = 8 * slot + 4;
  return Math.abs(d[n] * (point[0] - t[a]) + d[n + 1] * (point[1] - t[a + 1]) + d[n + 2] * (point[2] - t[a + 2]));
}

/** Unit normal at the foot on a slot's triangle, into `normal`. */
function normalAt(index: PlainIndex, slot: number): void {
  const { discs, normals: n, triangleOf } = index;
  const k = 8 * slot + 4;
  normal[0] = discs[k];
  normal[1] = discs[k + 1];
  normal[2] = discs[k + 2];
  if (!n) return;
  const ids = index.mesh.triangles;
  const corner = 3 * triangleOf[slot];
  const a = 3 * ids[corner];
  const b = 3 * ids[corner + 1];
  const c = 3 * ids[corner + 2];
  const wa = foot[0];
  const wb = foot[1];
  const wc = foot[2];
  const x = wa * n[a] + wb * n[b] + wc * n[c];
  const y = wa * n[a + 1] + wb * n[b + 1] + wc * n[c + 1];
  const z = wa * n[a + 2] + wb * n[b + 2] + wc * n[c + 2];
  const length = Math.sqrt(x * x + y * y + z * z);
  if (!(length > 1e-6)) return;
  normal[0] = x / length;
  normal[1] = y / length;
  normal[2] = z / length;
}

const nearZero = 1e-9;

function writeOut(index: PlainIndex, out: SurfacePoint): void {
  const t = index.corners;
  const at = 9 * bestSlot;
  const wa = bestFoot[0];
  const wb = bestFoot[1];
  const wc = bestFoot[2];
  out.x = wa * t[at] + wb * t[at + 3] + wc * t[at + 6];
  out.y = wa * t[at + 1] + wb * t[at + 4] + wc * t[at + 7];
  out.z = wa * t[at + 2] + wb * t[at + 5] + wc * t[at + 8];
  out.nx = bestNormal[0];
  out.ny = bestNormal[1];
  out.nz = bestNormal[2];
  const ex = point[0] - out.x;
  const ey = point[1] - out.y;
  const ez = point[2] - out.z;
  out.distance = Math.sqrt(ex * ex + ey * ey + ez * ez);
  out.triangle = index.triangleOf[bestSlot];
  out.slot = bestSlot;
  out.onBorder = index.open[bestSlot] !== 0 && standsOnBorder(index.open[bestSlot], wa, wb, wc);
}

function standsOnBorder(open: number, wa: number, wb: number, wc: number): boolean {
  const zeros = (wa < nearZero ? 1 : 0) | (wb < nearZero ? 2 : 0) | (wc < nearZero ? 4 : 0);
  if (zeros === 6) return (open & 8) !== 0;
  if (zeros === 5) return (open & 16) !== 0;
  if (zeros === 3) return (open & 32) !== 0;
  // Edge bc lies opposite corner a, and so on.
  return (zeros === 1 && (open & 2) !== 0) || (zeros === 2 && (open & 4) !== 0) || (zeros === 4 && (open & 1) !== 0);
}
