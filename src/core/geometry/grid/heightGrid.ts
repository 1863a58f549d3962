/**
 * A height grid: z in mm over a plane, with a mask of where there is data (the *relief map* of a face).
 *
 * Row 0 is the top of the picture. Cell (row, col) is centred at x = left + col · pitch, y = top − row · pitch.
 * `z` is row-major, `width · height` long; where `mask` is 0 there is no data and z is 0.
 */
export interface HeightGrid {
  readonly width: number;
  readonly height: number;
  /** Cell side, mm. */
  readonly pitch: number;
  /** x of the first column's centre, mm. */
  readonly left: number;
  /** y of the first row's centre, mm. */
  readonly top: number;
  readonly z: Float32Array;
  /** 1 where there is data, else 0. */
  readonly mask: Uint8Array;
}

/** How many cells of what size, and where they lie. */
export type GridFrame = Omit<HeightGrid, 'z' | 'mask'>;

/**
 * Heights on the cells of a frame. Every grid's fields are written in this order: to an engine grids that were copied field by field from
 * others, each in its own way, are of as many kinds, and whatever reads them is compiled anew for each.
 */
export const gridOn = (
  { width, height, pitch, left, top }: GridFrame,
  z: Float32Array,
  mask: Uint8Array,
): HeightGrid => ({
  width,
  height,
  pitch,
  left,
  top,
  z,
  mask,
});

/** An empty grid that covers the rectangle, edges included. */
export function emptyGrid(xMin: number, xMax: number, yMin: number, yMax: number, pitch: number): HeightGrid {
  const width = Math.max(1, Math.ceil((xMax - xMin) / pitch) + 1);
  const height = Math.max(1, Math.ceil((yMax - yMin) / pitch) + 1);
  const size = width * height;
  return { width, height, pitch, left: xMin, top: yMax, z: new Float32Array(size), mask: new Uint8Array(size) };
}

export const columnOf = (grid: HeightGrid, x: number): number => (x - grid.left) / grid.pitch;
export const rowOf = (grid: HeightGrid, y: number): number => (grid.top - y) / grid.pitch;
export const xOf = (grid: HeightGrid, column: number): number => grid.left + column * grid.pitch;
export const yOf = (grid: HeightGrid, row: number): number => grid.top - row * grid.pitch;

/** The same cells with other heights (and, if given, another mask). */
export const withHeights = (grid: HeightGrid, z: Float32Array, mask = grid.mask): HeightGrid => gridOn(grid, z, mask);

/**
 * Bilinear height at (x, y) mm, or NaN unless all four surrounding cells carry data.
 */
export const sampleGrid = (grid: HeightGrid, x: number, y: number): number =>
  sampleCells(grid, columnOf(grid, x), rowOf(grid, y));

/** The same at a place in cells, column and row. */
export function sampleCells({ width, height, z, mask }: HeightGrid, c: number, r: number): number {
  const c0 = Math.floor(c);
  const r0 = Math.floor(r);
  if (!(c0 >= 0 && r0 >= 0 && c0 < width - 1 && r0 < height - 1)) return Number.NaN;
  const i = r0 * width + c0;
  if (!(mask[i] && mask[i + 1] && mask[i + width] && mask[i + width + 1])) return Number.NaN;
  const u = c - c0;
  const v = r - r0;
  return (1 - v) * ((1 - u) * z[i] + u * z[i + 1]) + v * ((1 - u) * z[i + width] + u * z[i + width + 1]);
}

/**
 * The grid as seen after turning the object over, (x, y, z) → (−x, y, −z): columns run the other way and heights
 * change sign. Turning over twice gives the grid back.
 */
export function turnGridOver(grid: HeightGrid): HeightGrid {
  const { width, height } = grid;
  const z = new Float32Array(grid.z.length);
  const mask = new Uint8Array(grid.mask.length);
  for (let row = 0; row < height; row++)
    for (let col = 0; col < width; col++) {
      const from = row * width + col;
      const to = row * width + (width - 1 - col);
      mask[to] = grid.mask[from];
      z[to] = grid.mask[from] ? -grid.z[from] : 0;
    }
  return gridOn({ ...grid, left: -xOf(grid, width - 1) }, z, mask);
}
