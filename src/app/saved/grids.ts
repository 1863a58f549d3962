import * as z from 'zod';
import type { HeightGrid } from '../../core/geometry/index.ts';
import { halved, type ReliefPicture } from '../../workers/browser/reliefPicture.ts';
import { count, mm } from '../admission/parts.ts';
import type { BinaryPart } from './glb.ts';

/** A height grid inside the file: heights as 16-bit steps, 0 where there is no data. */
export const storedGrid = z.object({
  width: z.int().min(2).max(20_000),
  height: z.int().min(2).max(20_000),
  pitch: z.number().positive().max(100),
  left: mm,
  top: mm,
  /** Height = `low` + (step − 1) · `step`, mm. */
  low: mm,
  step: z.number().min(0).max(1),
  view: count,
});
export type StoredGrid = z.output<typeof storedGrid>;

/** The grid with sides of at most `most` cells. */
export function reducedGrid(grid: HeightGrid, most: number): HeightGrid {
  let small = grid;
  while (Math.max(small.width, small.height) > most) small = halved(small);
  return small;
}

export function storeGrid(grid: HeightGrid, binary: BinaryPart): StoredGrid {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < grid.z.length; i++)
    if (grid.mask[i]) {
      low = Math.min(low, grid.z[i]);
      high = Math.max(high, grid.z[i]);
    }
  if (low > high) low = high = 0;
  const step = (high - low) / 65_534 || 1;
  const cells = new Uint16Array(grid.z.length);
  for (let i = 0; i < cells.length; i++) if (grid.mask[i]) cells[i] = 1 + Math.round((grid.z[i] - low) / step);
  const { width, height, pitch, left, top } = grid;
  return { width, height, pitch, left, top, low, step, view: binary.add(cells) };
}

/** The grid of a file, whose size was held against `cells` before: width · height of them. */
export function loadGrid(stored: StoredGrid, cells: Uint16Array): HeightGrid {
  const { width, height, pitch, left, top, low, step } = stored;
  const z = new Float32Array(width * height);
  const mask = new Uint8Array(width * height);
  for (let i = 0; i < z.length; i++)
    if (cells[i] > 0) {
      mask[i] = 1;
      z[i] = low + (cells[i] - 1) * step;
    }
  return { width, height, pitch, left, top, z, mask };
}

/** The heights that the shown picture carries: half floats, so to about 4 µm at 4 mm. */
export function gridOfPicture(picture: ReliefPicture): HeightGrid {
  const { width, height, pitch, left, top, cells, mask } = picture;
  const z = new Float32Array(width * height);
  for (let i = 0; i < z.length; i++) z[i] = halfValue(cells[4 * i + 3]);
  return { width, height, pitch, left, top, z, mask: Uint8Array.from(z, (_, i) => (mask[2 * i + 1] >= 128 ? 1 : 0)) };
}

/** The number that IEEE 754 binary16 bits stand for. */
export function halfValue(bits: number): number {
  const sign = bits & 0x8000 ? -1 : 1;
  const exponent = (bits >> 10) & 0x1f;
  const fraction = bits & 0x3ff;
  if (exponent === 0) return sign * fraction * 2 ** -24;
  return sign * (1 + fraction / 1024) * 2 ** (exponent - 15);
}
