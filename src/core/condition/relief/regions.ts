import { gaussianFilter, gridOn, type HeightGrid } from '../../geometry/index.ts';

/**
 * Means of several values over a Gaussian region about every cell, worked out on blocks of an eighth of the region and
 * linear between them. `fill` writes the values of a cell (they start at 0). The function returned gives the mean of value k on
 * every cell, or its ratio to the mean of value m (NaN where that is 0). `regionMm`: cut-off of the Gaussian.
 */
export function regionMeans(
  grid: HeightGrid,
  regionMm: number,
  values: number,
  fill: (i: number, out: Float64Array) => void,
): (k: number, m?: number) => Float32Array {
  const block = Math.max(1, Math.round(regionMm / 8 / grid.pitch));
  const width = Math.ceil(grid.width / block) + 1;
  const height = Math.ceil(grid.height / block) + 1;
  const sums = Array.from({ length: values }, () => new Float32Array(width * height));
  const out = new Float64Array(values);
  for (let row = 0; row < grid.height; row++) addRow(row * grid.width, grid.width, row, block, width, fill, out, sums);
  const mask = new Uint8Array(width * height).fill(1);
  const blocks = { width, height, pitch: block * grid.pitch, left: 0, top: 0 };
  const smooth = sums.map((z) => gaussianFilter(gridOn(blocks, z, mask), regionMm).z);
  return (k, m) => onCells(grid, width, block, m === undefined ? smooth[k] : smooth[k].map((v, i) => v / smooth[m][i]));
}

/** Adds the values of a row of `across` cells, `first` its first, to the sums of their blocks. */
function addRow(
  first: number,
  across: number,
  row: number,
  block: number,
  width: number,
  fill: (i: number, out: Float64Array) => void,
  out: Float64Array,
  sums: readonly Float32Array[],
): void {
  const blockRow = Math.round(row / block) * width;
  for (let col = 0; col < across; col++) {
    out.fill(0);
    fill(first + col, out);
    const at = blockRow + Math.round(col / block);
    for (let k = 0; k < sums.length; k++) sums[k][at] += out[k] / (block * block);
  }
}

/** Values of the blocks on every cell, linear between the blocks' middles. */
function onCells(grid: HeightGrid, width: number, block: number, values: Float32Array): Float32Array {
  const out = new Float32Array(grid.z.length);
  for (let row = 0, i = 0; row < grid.height; row++) {
    const r = row / block;
    const r0 = Math.floor(r);
    for (let col = 0; col < grid.width; col++, i++) {
      const c = col / block;
      const c0 = Math.floor(c);
      const k = r0 * width + c0;
      const u = c - c0;
      const below = Math.min(values.length - 2, k + width);
      const upper = values[k] + u * (values[k + 1] - values[k]);
      out[i] = upper + (r - r0) * (values[below] + u * (values[below + 1] - values[below]) - upper);
    }
  }
  return out;
}
