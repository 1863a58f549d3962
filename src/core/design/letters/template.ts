import type { HeightGrid } from '../../geometry/index.ts';

/** Rows that a letter is brought to. */
export const rows = 22;
/** Rows shown above and below it. */
export const margin = 3;

/** A soft picture as high as a letter's rows and 2 `margin`, mean 0, sum of squares 1. */
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
