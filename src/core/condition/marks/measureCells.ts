import { median, quantile, xOf, yOf } from '../../geometry/index.ts';
import type { WearRelief } from '../relief/relief.ts';
import { cellOutline } from './cellOutline.ts';

/** Depth of each cell below the median of the surface two cells outside the loss, mm. */
export function heightOverSurroundings({ reference }: WearRelief, cells: Int32Array): Float32Array {
  const { width, z, mask } = reference;
  const within = new Set(cells);
  const about: number[] = [];
  for (const i of cells)
    for (const step of [-2, 2, -2 * width, 2 * width])
      if (mask[i + step] && !within.has(i + step)) about.push(z[i + step]);
  const level = about.length > 0 ? median(about) : 0;
  return Float32Array.from(cells, (i) => z[i] - level);
}

/** Outline, length, area, depth and volume of a patch of cells, by how far each departs, mm. */
export function measureCells(
  { reference, difference }: WearRelief,
  cells: Int32Array,
  departures: Float32Array = Float32Array.from(cells, (i) => difference[i]),
) {
  const area = reference.pitch ** 2;
  const size = departures.map(Math.abs).filter((value) => !Number.isNaN(value));
  const outline = cellOutline(reference, cells);
  return {
    outline,
    lengthMm: longerSideOf(outline),
    areaMm2: cells.length * area,
    depthMm: quantile(size, 0.9),
    volumeMm3: size.reduce((sum, value) => sum + value, 0) * area,
  };
}

/** Longer side of the outline's box, mm. */
function longerSideOf(outline: Float64Array): number {
  const x = outline.filter((_, k) => k % 2 === 0);
  const y = outline.filter((_, k) => k % 2 === 1);
  return Math.max(Math.max(...x) - Math.min(...x), Math.max(...y) - Math.min(...y));
}

/** Mean place of a patch of cells, mm. */
export function middleOf({ reference }: WearRelief, cells: Int32Array): [number, number] {
  let [x, y] = [0, 0];
  for (const i of cells) {
    x += xOf(reference, i % reference.width);
    y += yOf(reference, Math.floor(i / reference.width));
  }
  return [x / cells.length, y / cells.length];
}
