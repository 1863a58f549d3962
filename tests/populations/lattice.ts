import type { Chance } from './chance.ts';

/**
 * A fine raster over the design plane, mm. Cell (column, row) is centred at x = left + column · pitch,
 * y = bottom + row · pitch. All objects of one matrix live on one lattice, so a cell is a material point of them all.
 */
export interface Lattice {
  readonly width: number;
  readonly height: number;
  readonly pitch: number;
  readonly left: number;
  readonly bottom: number;
}

/** A lattice over |x| ≤ halfWidth, |y| ≤ halfHeight. */
export function latticeOver(halfWidth: number, halfHeight: number, pitch: number): Lattice {
  const width = Math.ceil((2 * halfWidth) / pitch) + 1;
  const height = Math.ceil((2 * halfHeight) / pitch) + 1;
  return { width, height, pitch, left: (-(width - 1) * pitch) / 2, bottom: (-(height - 1) * pitch) / 2 };
}

/** The cell whose centre is closest to (x, y), held inside the lattice. */
export function cellAt({ width, height, pitch, left, bottom }: Lattice, x: number, y: number): number {
  const column = Math.min(width - 1, Math.max(0, Math.round((x - left) / pitch)));
  const row = Math.min(height - 1, Math.max(0, Math.round((y - bottom) / pitch)));
  return row * width + column;
}

/** Bilinear value at (x, y); beyond the lattice the edge's value goes on. */
export function valueAt(
  { width, height, pitch, left, bottom }: Lattice,
  z: Float32Array,
  x: number,
  y: number,
): number {
  const c = Math.min(width - 1.001, Math.max(0, (x - left) / pitch));
  const r = Math.min(height - 1.001, Math.max(0, (y - bottom) / pitch));
  const i = Math.floor(r) * width + Math.floor(c);
  const u = c - Math.floor(c);
  const v = r - Math.floor(r);
  return (1 - v) * ((1 - u) * z[i] + u * z[i + 1]) + v * ((1 - u) * z[i + width] + u * z[i + width + 1]);
}

/** The lower left of the four cells between which (x, y) lies; the others are 1, width and width + 1 further. */
export function stencilAt({ width, height, pitch, left, bottom }: Lattice, x: number, y: number): number {
  const column = Math.floor(Math.min(width - 1.001, Math.max(0, (x - left) / pitch)));
  const row = Math.floor(Math.min(height - 1.001, Math.max(0, (y - bottom) / pitch)));
  return row * width + column;
}

/** Calls `visit(cell, x, y)` for the cells within `reach` mm of (x, y), a square. */
export function nearCells(
  { width, height, pitch, left, bottom }: Lattice,
  x: number,
  y: number,
  reach: number,
  visit: (cell: number, x: number, y: number) => void,
): void {
  const from = Math.max(0, Math.ceil((x - reach - left) / pitch));
  const to = Math.min(width - 1, Math.floor((x + reach - left) / pitch));
  const low = Math.max(0, Math.ceil((y - reach - bottom) / pitch));
  const high = Math.min(height - 1, Math.floor((y + reach - bottom) / pitch));
  for (let row = low; row <= high; row++)
    for (let column = from; column <= to; column++)
      visit(row * width + column, left + column * pitch, bottom + row * pitch);
}

/** Gaussian smoothing, standard deviation `sigma` mm, taps out to three of them; edges repeat. */
export function smooth({ width, height, pitch }: Lattice, z: Float32Array, sigma: number): Float32Array {
  const reach = Math.ceil((3 * sigma) / pitch);
  const taps = Float64Array.from({ length: reach + 1 }, (_, k) => Math.exp(-((k * pitch) ** 2) / (2 * sigma * sigma)));
  const sum = taps.reduce((total, tap, k) => total + (k ? 2 : 1) * tap, 0);
  for (let k = 0; k <= reach; k++) taps[k] /= sum;
  const across = new Float32Array(z.length);
  const line = new Float32Array(width + 2 * reach);
  for (let row = 0; row < height; row++) {
    const start = row * width;
    for (let i = 0; i < line.length; i++) line[i] = z[start + Math.min(width - 1, Math.max(0, i - reach))];
    for (let i = 0; i < width; i++) {
      let value = taps[0] * line[i + reach];
      for (let k = 1; k <= reach; k++) value += taps[k] * (line[i + reach - k] + line[i + reach + k]);
      across[start + i] = value;
    }
  }
  const out = new Float32Array(z.length);
  for (let row = 0; row < height; row++)
    for (let k = -reach; k <= reach; k++) {
      const from = Math.min(height - 1, Math.max(0, row + k)) * width;
      const tap = taps[Math.abs(k)];
      for (let i = 0, to = row * width; i < width; i++) out[to + i] += tap * across[from + i];
    }
  return out;
}

/** A slowly changing function over every cell: computed about every `coarsePitch` mm, bilinear between. */
export function spread(lattice: Lattice, coarsePitch: number, f: (x: number, y: number) => number): Float32Array {
  const { width, height, pitch, left, bottom } = lattice;
  const factor = Math.max(1, Math.round(coarsePitch / pitch));
  const columns = Math.ceil(width / factor) + 1;
  const rows = Math.ceil(height / factor) + 1;
  const values = new Float32Array(columns * rows);
  for (let row = 0, i = 0; row < rows; row++)
    for (let column = 0; column < columns; column++, i++)
      values[i] = f(left + column * factor * pitch, bottom + row * factor * pitch);
  const out = new Float32Array(width * height);
  for (let row = 0, i = 0; row < height; row++) {
    const r0 = Math.floor(row / factor);
    const v = row / factor - r0;
    for (let column = 0; column < width; column++, i++) {
      const c0 = Math.floor(column / factor);
      const u = column / factor - c0;
      const k = r0 * columns + c0;
      const low = (1 - u) * values[k] + u * values[k + 1];
      out[i] = (1 - v) * low + v * ((1 - u) * values[k + columns] + u * values[k + columns + 1]);
    }
  }
  return out;
}

/** Mean over a cell of the sum of squared cubic B-spline weights, one dimension. */
const splinePower = 151 / 315;

/**
 * A random surface of unit variance: cubic B-splines over a lattice of normal numbers `length` mm apart, so that values
 * farther apart than two lengths know little of each other.
 */
export function randomSurface(chance: Chance, length: number, halfExtent: number): (x: number, y: number) => number {
  const n = Math.ceil((2 * halfExtent) / length) + 5;
  const knots = new Float32Array(n * n);
  for (let i = 0; i < knots.length; i++) knots[i] = chance.gauss() / splinePower;
  const limit = n - 4.001;
  return (x, y) => {
    const c = Math.min(limit, Math.max(0, (x + halfExtent) / length));
    const r = Math.min(limit, Math.max(0, (y + halfExtent) / length));
    const c0 = Math.floor(c);
    const r0 = Math.floor(r);
    const u = c - c0;
    const v = r - r0;
    const u1 = 1 - u;
    const a = (u1 * u1 * u1) / 6;
    const d = (u * u * u) / 6;
    const b = 2 / 3 - u * u * (1 - u / 2);
    const e = 1 - a - b - d;
    let sum = 0;
    for (let j = 0, i = r0 * n + c0; j < 4; j++, i += n) {
      const line = a * knots[i] + b * knots[i + 1] + e * knots[i + 2] + d * knots[i + 3];
      sum += line * splineWeight(j, v);
    }
    return sum;
  };
}

function splineWeight(j: number, v: number): number {
  const w = 1 - v;
  if (j === 0) return (w * w * w) / 6;
  if (j === 1) return 2 / 3 - v * v * (1 - v / 2);
  if (j === 2) return 2 / 3 - w * w * (1 - w / 2);
  return (v * v * v) / 6;
}

/** A smooth ramp from 0 at `from` to 1 at `to`. */
export function ramp(value: number, from: number, to: number): number {
  const t = Math.min(1, Math.max(0, (value - from) / (to - from)));
  return t * t * (3 - 2 * t);
}
