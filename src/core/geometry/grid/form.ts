import { Matrix, solve } from 'ml-matrix';
import { type FormCells, type FormSampling, formCells, withoutForm } from '../../../kernels/index.ts';
import { solveDefinite } from '../solve/solve.ts';
import { median, quantile, sigmaFromMad } from '../solve/statistics.ts';
import { type HeightGrid, withHeights, xOf, yOf } from './heightGrid.ts';

/** z = c0 + c1 x + c2 y (order 1) + c3 x² + c4 x y + c5 y² (order 2); x, y in mm of the grid's frame. */
export interface FormRemoval {
  /** Heights less the form; cells without data stay 0. */
  readonly detail: HeightGrid;
  /** Three or six numbers in the order of the formula, mm, 1, 1/mm. */
  readonly coefficients: Float64Array;
}

export type FormOrder = 1 | 2;

const termCount = (order: FormOrder): number => (order === 1 ? 3 : 6);

/** Height of the form at (x, y) mm. */
export function formAt(coefficients: ArrayLike<number>, x: number, y: number): number {
  const c = coefficients;
  const plane = c[0] + c[1] * x + c[2] * y;
  return c.length < 6 ? plane : plane + c[3] * x * x + c[4] * x * y + c[5] * y * y;
}

/**
 * Takes a plane (order 1) or a second-order surface (order 2) off the relief, fitted with iterated weights so that the
 * design does not lift it: first w = min(1, 1.345 s/|r|) (Huber), then w = (1 − (r/4.685 s)²)² inside, 0 outside
 * (Tukey), s = 1.4826 median |r|. Heights in mm. With fewer cells than terms nothing is removed.
 * Source: Huber 1964; Beaton and Tukey, Technometrics 16, 1974 (weights and constants from memory).
 */
export function removeForm(grid: HeightGrid, order: FormOrder): FormRemoval {
  const coefficients = fitForm(grid, order);
  return { detail: lessForm(grid, coefficients), coefficients };
}

/** Heights less a form known; cells without data are 0. */
export const lessForm = (grid: HeightGrid, coefficients: Float64Array): HeightGrid =>
  withHeights(grid, withoutForm(grid, coefficients) ?? withoutFormPlainly(grid, coefficients));

/** How far a form's heights range from the fifth to the ninety-fifth of a hundred cells with data, mm; asks as many cells as `fitForm`. */
export function rangeOfForm(grid: HeightGrid, coefficients: Float64Array): number {
  const { width, height, mask } = grid;
  const { stride } = samplingOf(grid, mostAsked);
  const heights: number[] = [];
  for (let r = 0; r < height; r += stride)
    for (let c = 0; c < width; c += stride)
      if (mask[r * width + c]) heights.push(formAt(coefficients, xOf(grid, c), yOf(grid, r)));
  const ready = Float64Array.from(heights);
  return quantile(ready, 0.95) - quantile(ready, 0.05);
}

/** Heights less the form without the kernel, which gives the same numbers. */
export function withoutFormPlainly(grid: HeightGrid, coefficients: Float64Array): Float32Array {
  const { width, height, mask } = grid;
  const z = new Float32Array(grid.z.length);
  for (let r = 0; r < height; r++)
    for (let c = 0; c < width; c++) {
      const i = r * width + c;
      if (mask[i]) z[i] = grid.z[i] - formAt(coefficients, xOf(grid, c), yOf(grid, r));
    }
  return z;
}

const mostAsked = 6000;

/** The robust fit alone; looks at no more than about 6,000 cells, evenly spread. */
export function fitForm(grid: HeightGrid, order: FormOrder): Float64Array {
  const sampling = samplingOf(grid, mostAsked);
  return fitTo(formCells(grid, sampling, sigmaFromMad) ?? formCellsPlainly(grid, sampling), sampling, termCount(order));
}

/** The fit to cells of the kernel or of its referee. */
export function fitTo(cells: FormCells, sampling: FormSampling, terms: number): Float64Array {
  if (cells.count < terms) return new Float64Array(terms);
  let c = weightedFit(cells, terms, false);
  for (let pass = 0; pass < huberPasses + tukeyPasses; pass++) {
    if (!cells.weigh(c, pass >= huberPasses)) break;
    const next = weightedFit(cells, terms, true);
    const moved = next.reduce((most, value, k) => Math.max(most, Math.abs(value - c[k])), 0);
    c = next;
    if (pass >= huberPasses && moved < settledMm) break;
  }
  return unscale(c, sampling);
}

const huberPasses = 6;
const tukeyPasses = 30;
/** A tenth of a micrometre: far below what any scan resolves. */
const settledMm = 1e-4;

/** Every so many cells, about `most` in all; terms near 1 keep the normal equations well conditioned. */
export function samplingOf(grid: HeightGrid, most: number): FormSampling {
  const { width, height, pitch } = grid;
  return {
    stride: Math.max(1, Math.round(Math.sqrt((width * height) / most))),
    cx: xOf(grid, (width - 1) / 2),
    cy: yOf(grid, (height - 1) / 2),
    radius: Math.max(pitch, (Math.max(width, height) * pitch) / 2),
  };
}

/** Cells with data without the kernel, which gives the same numbers. */
export function formCellsPlainly(grid: HeightGrid, { stride, cx, cy, radius }: FormSampling): FormCells {
  const { width, height, mask } = grid;
  const most = Math.ceil(width / stride) * Math.ceil(height / stride);
  const [x, y, z] = [new Float64Array(most), new Float64Array(most), new Float64Array(most)];
  let count = 0;
  for (let r = 0; r < height; r += stride)
    for (let c = 0; c < width; c += stride) {
      const i = r * width + c;
      if (!mask[i]) continue;
      x[count] = (xOf(grid, c) - cx) / radius;
      y[count] = (yOf(grid, r) - cy) / radius;
      z[count++] = grid.z[i];
    }
  const points = { x: x.subarray(0, count), y: y.subarray(0, count), z: z.subarray(0, count) };
  let weights: Float64Array = new Float64Array(count).fill(1);
  return {
    count,
    weigh(c, tukey) {
      const found = robustWeights(points, c, tukey);
      weights = found ?? weights;
      return found !== null;
    },
    equations(terms, weighted) {
      const normal = new Float64Array(terms * terms);
      const right = new Float64Array(terms);
      for (let i = 0; i < count; i++) {
        const w = weighted ? weights[i] : 1;
        if (w !== 0) addPoint(normal, right, points.x[i], points.y[i], points.z[i], w);
      }
      return { normal, right };
    },
  };
}

interface Points {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
}

function weightedFit(cells: FormCells, terms: number, weighted: boolean): Float64Array {
  const { normal, right } = cells.equations(terms, weighted);
  for (let a = 0; a < terms; a++) for (let b = 0; b < a; b++) normal[b * terms + a] = normal[a * terms + b];
  const definite = solveDefinite(normal, right, terms);
  if (definite) return definite;
  // Singular only where all cells lie on one line: the pseudo-inverse then gives the smallest form.
  const matrix = Matrix.from1DArray(terms, terms, normal);
  return Float64Array.from(solve(matrix, Matrix.columnVector(right), true).to1DArray());
}

const basis = new Float64Array(6);

/** A point's part of the normal equations, below the diagonal. */
function addPoint(normal: Float64Array, right: Float64Array, x: number, y: number, z: number, w: number): void {
  const terms = right.length;
  basis[0] = 1;
  basis[1] = x;
  basis[2] = y;
  basis[3] = x * x;
  basis[4] = x * y;
  basis[5] = y * y;
  for (let a = 0, at = 0; a < terms; a++, at += terms) {
    const weighted = w * basis[a];
    right[a] += weighted * z;
    for (let b = 0; b <= a; b++) normal[at + b] += weighted * basis[b];
  }
}

const huberWeight = (away: number, scale: number): number => Math.min(1, (1.345 * scale) / Math.max(away, 1e-300));

function tukeyWeight(away: number, scale: number): number {
  const u = away / (4.685 * scale);
  const square = u * u;
  return square < 1 ? (1 - square) * (1 - square) : 0;
}

/** Null where the fit is exact already. */
function robustWeights(points: Points, c: Float64Array, tukey: boolean): Float64Array | null {
  const { x, y, z } = points;
  // What is left of each height, then its weight.
  const out = new Float64Array(z.length);
  for (let i = 0; i < out.length; i++) out[i] = Math.abs(z[i] - formAt(c, x[i], y[i]));
  const scale = sigmaFromMad * median(out);
  if (!(scale > 1e-12)) return null;
  for (let i = 0; i < out.length; i++) out[i] = tukey ? tukeyWeight(out[i], scale) : huberWeight(out[i], scale);
  return out;
}

/** Coefficients in mm from those over the scaled coordinates. */
function unscale(c: Float64Array, { cx, cy, radius }: FormSampling): Float64Array {
  const x1 = c[1] / radius;
  const y1 = c[2] / radius;
  if (c.length === 3) return Float64Array.of(c[0] - x1 * cx - y1 * cy, x1, y1);
  const [xx, xy, yy] = [c[3], c[4], c[5]].map((value) => value / (radius * radius));
  return Float64Array.of(
    c[0] - x1 * cx - y1 * cy + xx * cx * cx + xy * cx * cy + yy * cy * cy,
    x1 - 2 * xx * cx - xy * cy,
    y1 - 2 * yy * cy - xy * cx,
    xx,
    xy,
    yy,
  );
}
