import { bandPass, type HeightGrid } from '../../geometry/index.ts';
import type { Strip } from './unroll.ts';

/** Rows that a letter is brought to. */
export const rows = 22;
export const margin = 3;
/** Part of the letters' height that is shown: 0 their upper edge on the strip, 1 their lower. */
export type LetterPart = readonly [from: number, to: number];

/**
 * Relief at the size of strokes, letters (or the stated part of their height) `rows` high, `margin` rows above and below.
 * Waves shorter than `finest` letters' heights are smoothed away.
 */
export function letterPicture(strip: Strip, [from, to]: LetterPart = [0, 1], finest = 0.12): HeightGrid {
  const { band, grid } = strip;
  const wholeMm = band.lettersInnerMm - band.lettersOuterMm;
  const letterMm = (to - from) * wholeMm;
  const strokes = bandPass(grid, finest * letterMm, 1.2 * letterMm);
  const pitch = letterMm / rows;
  const width = Math.floor((grid.width * grid.pitch) / pitch);
  const height = rows + 2 * margin;
  const z = new Float32Array(width * height);
  const mask = new Uint8Array(width * height);
  const top = (0.5 - from) * wholeMm + margin * pitch;
  for (let r = 0; r < height; r++)
    for (let c = 0; c < width; c++) {
      const row = Math.round((grid.top - top + (r + 0.5) * pitch) / grid.pitch);
      const col = Math.round(((c + 0.5) * pitch) / grid.pitch);
      if (row < 0 || row >= grid.height || col >= grid.width) continue;
      const i = row * grid.width + col;
      if (!grid.mask[i]) continue;
      z[r * width + c] = strokes.z[i];
      mask[r * width + c] = 1;
    }
  return { width, height, pitch, left: 0, top: 0, z, mask };
}

/** A soft picture `rows` + 2 `margin` high, mean 0, sum of squares 1. */
export interface Template {
  readonly width: number;
  readonly values: Float32Array;
}

/** Brought to mean 0 and sum of squares 1. */
export function unit(values: Float32Array): Float32Array {
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  let squares = 0;
  for (const value of values) squares += (value - mean) ** 2;
  return values.map((value) => (value - mean) / Math.sqrt(Math.max(1e-12, squares)));
}

/** Normalised correlation with a template whose left edge lies at `column`; NaN where much of it has no data. */
export function correlation({ width, height, z, mask }: HeightGrid, template: Template, column: number): number {
  let product = 0;
  let sum = 0;
  let squares = 0;
  let count = 0;
  for (let r = 0; r < height; r++) {
    const from = r * width + column;
    const to = r * template.width;
    for (let c = 0; c < template.width; c++) {
      if (!mask[from + c]) continue;
      const value = z[from + c];
      product += value * template.values[to + c];
      sum += value;
      squares += value * value;
      count++;
    }
  }
  if (count < 0.85 * height * template.width) return Number.NaN;
  const spread = squares - (sum * sum) / count;
  return spread > 1e-12 ? product / Math.sqrt(spread) : 0;
}
