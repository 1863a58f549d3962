import { heightsSeenFrom } from '../../kernels/index.ts';
import { emptyGrid, type HeightGrid, type Mesh, type Similarity, withHeights } from '../geometry/index.ts';

/** Positions in another frame, xyz triples; mirrors `apply` over a whole array. */
export function transformPositions(positions: Float32Array, m: Similarity): Float32Array {
  const out = new Float32Array(positions.length);
  const [a, b, c, d, e, f, g, h, i] = m.rotation.map((value) => value * m.scale);
  const [tx, ty, tz] = m.translation;
  for (let k = 0; k < positions.length; k += 3) {
    const x = positions[k];
    const y = positions[k + 1];
    const z = positions[k + 2];
    out[k] = a * x + b * y + c * z + tx;
    out[k + 1] = d * x + e * y + f * z + ty;
    out[k + 2] = g * x + h * y + i * z + tz;
  }
  return out;
}

export interface RasterWindow {
  readonly xMin: number;
  readonly xMax: number;
  readonly yMin: number;
  readonly yMax: number;
  readonly pitch: number;
}

/** Least and greatest x and y of what the triangles use, mm. */
export interface ExtentXY {
  readonly xMin: number;
  readonly xMax: number;
  readonly yMin: number;
  readonly yMax: number;
}

/** What `heightsSeen` looks at; it may depend on how far the turned surface reaches. */
export type WindowOf = (extent: () => ExtentXY) => RasterWindow;

/**
 * The surface as seen from +z of a frame: for each cell centre the height of the highest triangle over it that looks toward the
 * viewer. By a compiled kernel where the engine lets it run, which gives the same numbers as `heightsSeenPlainly`.
 */
export function heightsSeen(mesh: Mesh, frame: Similarity, windowOf: WindowOf): HeightGrid {
  const turn = [...frame.rotation.map((value) => value * frame.scale), ...frame.translation];
  const seen = heightsSeenFrom(mesh, turn, (extent) => gridOf(windowOf(extent)));
  if (!seen) return heightsSeenPlainly(mesh, frame, windowOf);
  const { cells, heights } = seen;
  for (let i = 0; i < heights.length; i++)
    if (heights[i] === Number.NEGATIVE_INFINITY) heights[i] = 0;
    else cells.mask[i] = 1;
  return withHeights(cells, heights);
}

export function heightsSeenPlainly(mesh: Mesh, frame: Similarity, windowOf: WindowOf): HeightGrid {
  const positions = transformPositions(mesh.positions, frame);
  return rasterise(
    positions,
    mesh.triangles,
    windowOf(() => extentOf(positions, mesh.triangles)),
  );
}

function extentOf(positions: Float32Array, triangles: Uint32Array): ExtentXY {
  let [xMin, xMax, yMin, yMax] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i < triangles.length; i++) {
    const x = positions[triangles[i] * 3];
    const y = positions[triangles[i] * 3 + 1];
    if (x < xMin) xMin = x;
    if (x > xMax) xMax = x;
    if (y < yMin) yMin = y;
    if (y > yMax) yMax = y;
  }
  return { xMin, xMax, yMin, yMax };
}

const gridOf = ({ xMin, xMax, yMin, yMax, pitch }: RasterWindow): HeightGrid =>
  emptyGrid(xMin, xMax, yMin, yMax, pitch);

/**
 * The surface as seen from +z: for each cell centre the height of the highest triangle over it that looks toward
 * the viewer. `positions` are xyz triples in the viewing frame.
 */
export function rasterise(positions: Float32Array, triangles: Uint32Array, window: RasterWindow): HeightGrid {
  const grid = gridOf(window);
  for (let t = 0; t < triangles.length; t += 3) {
    const a = triangles[t] * 3;
    const b = triangles[t + 1] * 3;
    const c = triangles[t + 2] * 3;
    drawTriangle(grid, positions, a, b, c);
  }
  return grid;
}

function drawTriangle(grid: HeightGrid, p: Float32Array, a: number, b: number, c: number): void {
  const inverse = 1 / grid.pitch;
  const ax = (p[a] - grid.left) * inverse;
  const ay = (grid.top - p[a + 1]) * inverse;
  const bx = (p[b] - grid.left) * inverse;
  const by = (grid.top - p[b + 1]) * inverse;
  const cx = (p[c] - grid.left) * inverse;
  const cy = (grid.top - p[c + 1]) * inverse;
  // Rows run downward, so a triangle that winds counter-clockwise for the viewer has a negative area here.
  const area = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
  if (!(area < 0)) return;
  const col0 = Math.max(0, Math.ceil(Math.min(ax, bx, cx)));
  const col1 = Math.min(grid.width - 1, Math.floor(Math.max(ax, bx, cx)));
  const row0 = Math.max(0, Math.ceil(Math.min(ay, by, cy)));
  const row1 = Math.min(grid.height - 1, Math.floor(Math.max(ay, by, cy)));
  const scale = 1 / area;
  for (let row = row0; row <= row1; row++)
    for (let col = col0; col <= col1; col++) {
      const u = ((bx - col) * (cy - row) - (cx - col) * (by - row)) * scale;
      const v = ((cx - col) * (ay - row) - (ax - col) * (cy - row)) * scale;
      const w = 1 - u - v;
      if (u < -1e-6 || v < -1e-6 || w < -1e-6) continue;
      const z = u * p[a + 2] + v * p[b + 2] + w * p[c + 2];
      const i = row * grid.width + col;
      if (grid.mask[i] && grid.z[i] >= z) continue;
      grid.mask[i] = 1;
      grid.z[i] = z;
    }
}
