import { emptyGrid, type HeightGrid, type Similarity } from '../geometry/index.ts';

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
  /** Only surface between these heights is drawn. */
  readonly zMin?: number;
  readonly zMax?: number;
}

/**
 * The surface as seen from +z: for each cell centre the height of the highest triangle over it that looks toward
 * the viewer. `positions` are xyz triples in the viewing frame.
 */
export function rasterise(positions: Float32Array, triangles: Uint32Array, window: RasterWindow): HeightGrid {
  const grid = emptyGrid(window.xMin, window.xMax, window.yMin, window.yMax, window.pitch);
  const { zMin = Number.NEGATIVE_INFINITY, zMax = Number.POSITIVE_INFINITY } = window;
  for (let t = 0; t < triangles.length; t += 3) {
    const a = triangles[t] * 3;
    const b = triangles[t + 1] * 3;
    const c = triangles[t + 2] * 3;
    drawTriangle(grid, positions, a, b, c, zMin, zMax);
  }
  return grid;
}

function drawTriangle(
  grid: HeightGrid,
  p: Float32Array,
  a: number,
  b: number,
  c: number,
  zMin: number,
  zMax: number,
): void {
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
      if (z < zMin || z > zMax) continue;
      const i = row * grid.width + col;
      if (grid.mask[i] && grid.z[i] >= z) continue;
      grid.mask[i] = 1;
      grid.z[i] = z;
    }
}
