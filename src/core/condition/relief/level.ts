import type { SubjectSurface } from '../../fit/index.ts';
import {
  type HeightGrid,
  inStretches,
  median,
  quantile,
  sigmaFromMad,
  slopeX,
  slopeY,
  withHeights,
} from '../../geometry/index.ts';

export const levelDefaults = {
  /** Nodes across the longer side on which the displacement is found, and reach of its smoothing in nodes (σ). */
  nodes: 24,
  reach: 2.2,
  rounds: 4,
  /** Cells looked at, about. */
  samples: 25_000,
  /** How far the fit is expected to be off locally, mm (1 σ): across the plane and in height. */
  shiftMm: 0.12,
  heightMm: 0.1,
  /** Weight that raised cells keep for the height: what stands up is what wears. */
  raised: 0.08,
};

/**
 * Takes off what a smooth fit leaves between two faces of one design, so that wear and damage stand on the field:
 * local shifts u and heights w, smooth over about a tenth of the face, from d ≈ −∇a·u + w (Lucas and Kanade 1981),
 * with Tukey weights (what does not fit is not followed) and with small weight for raised cells.
 * `a` in the positive sense; heights mm. Returns b(x + u) − w on the cells of a.
 */
export function levelPair(
  a: HeightGrid,
  b: SubjectSurface,
  inside: Uint8Array,
  sizeMm: number,
  options = levelDefaults,
): HeightGrid {
  const samples = sampleCells(a, inside, options);
  const field = displacementNodes(a, sizeMm, options);
  for (let round = 0; round < options.rounds; round++) {
    inStretches(differencesAt, { samples, a, b, field }, samples.at.length, atOnce);
    accumulate(field, a.width, samples);
    smoothNodes(field, options.reach);
    solveNodes(field, options);
  }
  return displaced(a, b, field);
}

interface Slopes {
  readonly x: Float32Array;
  readonly y: Float32Array;
}

/** Central differences, mm per mm; 0 beside missing data. */
export function slopesOf(grid: HeightGrid): Slopes {
  const x = new Float32Array(grid.z.length);
  const y = new Float32Array(grid.z.length);
  for (let i = 0; i < x.length; i++) if (grid.mask[i]) writeSlope(grid, i, x, y, i);
  return { x, y };
}

/** Slopes at a cell to place `k`; those beside missing data are left as they are. */
function writeSlope(grid: HeightGrid, i: number, gx: Float32Array, gy: Float32Array, k: number): void {
  const { width, height, pitch, z, mask } = grid;
  const col = i % width;
  if (col === 0 || col === width - 1 || i < width || i >= (height - 1) * width) return;
  if (!(mask[i] && mask[i - 1] && mask[i + 1] && mask[i - width] && mask[i + width])) return;
  gx[k] = slopeX(z, i, pitch);
  gy[k] = slopeY(z, i, width, pitch);
}

/** The cells that the displacement is found from. */
interface Samples {
  readonly at: Int32Array;
  /** Slopes of the reference there. */
  readonly gx: Float32Array;
  readonly gy: Float32Array;
  /** 1 on the field, falling to `raised` on what stands up. */
  readonly base: Float32Array;
  /** b(x + u) − w − a under the displacement so far, NaN without data. */
  readonly d: Float32Array;
}

function sampleCells(a: HeightGrid, inside: Uint8Array, options: typeof levelDefaults): Samples {
  const stride = Math.max(1, Math.floor(Math.sqrt(a.z.length / options.samples)));
  const at: number[] = [];
  for (let row = 0; row < a.height; row += stride)
    for (let col = 0; col < a.width; col += stride) {
      const i = row * a.width + col;
      if (inside[i] && a.mask[i]) at.push(i);
    }
  const heights = Float32Array.from(at, (i) => a.z[i]);
  const low = quantile(heights, 0.35);
  const span = Math.max(1e-3, quantile(heights, 0.75) - low);
  const base = heights.map((z) => 1 - (1 - options.raised) * Math.max(0, Math.min(1, (z - low) / span)));
  const gx = new Float32Array(at.length);
  const gy = new Float32Array(at.length);
  for (let k = 0; k < at.length; k++) writeSlope(a, at[k], gx, gy, k);
  return { at: Int32Array.from(at), gx, gy, base, d: new Float32Array(at.length) };
}

/** Displacement on a coarse lattice over the window: normal equations and their solution at each node. */
interface Nodes {
  readonly width: number;
  readonly height: number;
  /** Cells between nodes. */
  readonly step: number;
  /** Per node: xx, xy, x1, yy, y1, 11, bx, by, b1, count. */
  readonly sums: Float64Array;
  /** Per node: ux, uy, w. */
  readonly found: Float64Array;
}

const terms = 10;

function displacementNodes(a: HeightGrid, sizeMm: number, { nodes }: typeof levelDefaults): Nodes {
  const step = Math.max(2, sizeMm / nodes / a.pitch);
  const width = Math.ceil(a.width / step) + 1;
  const height = Math.ceil(a.height / step) + 1;
  return {
    width,
    height,
    step,
    sums: new Float64Array(terms * width * height),
    found: new Float64Array(3 * width * height),
  };
}

/** Few, since there are some ten thousand, and four rounds of them. */
const atOnce = 2048;

interface Levelled {
  readonly samples: Samples;
  readonly a: HeightGrid;
  readonly b: SubjectSurface;
  readonly field: Nodes;
}

function differencesAt({ samples: { at, d }, a, b, field }: Levelled, from: number, to: number): void {
  const shift = new Float64Array(3);
  for (let k = from; k < to; k++) {
    const col = at[k] % a.width;
    const row = Math.floor(at[k] / a.width);
    shiftAt(field, col, row, shift);
    d[k] = b.at(col + shift[0] / a.pitch, row - shift[1] / a.pitch) - shift[2] - a.z[at[k]];
  }
}

function accumulate(nodes: Nodes, gridWidth: number, samples: Samples): void {
  const { base, d } = samples;
  nodes.sums.fill(0);
  const scale = Math.max(1e-3, sigmaFromMad * median(d.filter((_, k) => base[k] > 0.5).map(Math.abs)));
  inStretches(addCells, { nodes, gridWidth, samples, scale }, d.length, atOnce);
}

interface Added {
  readonly nodes: Nodes;
  readonly gridWidth: number;
  readonly samples: Samples;
  readonly scale: number;
}

function addCells(
  { nodes, gridWidth, samples: { at, gx, gy, base, d }, scale }: Added,
  from: number,
  to: number,
): void {
  const { sums, step } = nodes;
  for (let k = from; k < to; k++) {
    // On a slope a small shift makes a large difference: the distance to the surface is what is weighed.
    const steep = 1 + gx[k] ** 2 + gy[k] ** 2;
    const t = d[k] ** 2 / steep / (4.685 * scale) ** 2;
    if (!(t < 1)) continue;
    const weight = (1 - t) ** 2 / steep;
    const wz = weight * base[k];
    const node =
      terms * (Math.round(Math.floor(at[k] / gridWidth) / step) * nodes.width + Math.round((at[k] % gridWidth) / step));
    sums[node] += weight * gx[k] * gx[k];
    sums[node + 1] += weight * gx[k] * gy[k];
    sums[node + 2] -= wz * gx[k];
    sums[node + 3] += weight * gy[k] * gy[k];
    sums[node + 4] -= wz * gy[k];
    sums[node + 5] += wz;
    sums[node + 6] -= weight * gx[k] * d[k];
    sums[node + 7] -= weight * gy[k] * d[k];
    sums[node + 8] += wz * d[k];
    sums[node + 9] += weight;
  }
}

/** Gaussian over the lattice, σ in nodes. */
function smoothNodes({ width, height, sums }: Nodes, sigma: number): void {
  const reach = Math.ceil(3 * sigma);
  const kernel = Array.from({ length: reach + 1 }, (_, k) => Math.exp((-k * k) / (2 * sigma * sigma)));
  const pass = (count: number, lines: number, along: number, across: number): void => {
    const line = new Float64Array(count * terms);
    for (let l = 0; l < lines; l++) {
      for (let k = 0; k < count; k++)
        for (let t = 0; t < terms; t++) line[k * terms + t] = sums[(l * across + k * along) * terms + t];
      for (let k = 0; k < count; k++) {
        const at = (l * across + k * along) * terms;
        for (let t = 0; t < terms; t++) sums[at + t] = 0;
        for (let j = Math.max(0, k - reach); j <= Math.min(count - 1, k + reach); j++)
          for (let t = 0; t < terms; t++) sums[at + t] += kernel[Math.abs(j - k)] * line[j * terms + t];
      }
    }
  };
  pass(width, height, 1, width);
  pass(height, width, width, 1);
}

/** A step of the displacement at each node, drawn toward zero as its prior says where the cells say little. */
function solveNodes({ sums, found }: Nodes, { shiftMm, heightMm }: typeof levelDefaults): void {
  for (let k = 0; k < found.length / 3; k++) {
    const s = sums.subarray(terms * k, terms * k + terms);
    if (s[9] < 1e-6) continue;
    // Cells are not independent; about one in twenty counts, with a variance of (0.02 mm)².
    const damp = (sd: number): number => 20 * (0.02 / sd) ** 2;
    const [ux, uy, w] = found.subarray(3 * k, 3 * k + 3);
    const m = [
      [s[0] + damp(shiftMm), s[1], s[2], s[6] - damp(shiftMm) * ux],
      [s[1], s[3] + damp(shiftMm), s[4], s[7] - damp(shiftMm) * uy],
      [s[2], s[4], s[5] + damp(heightMm), s[8] - damp(heightMm) * w],
    ];
    const [dx, dy, dw] = solve3(m);
    found[3 * k] += dx;
    found[3 * k + 1] += dy;
    found[3 * k + 2] += dw;
  }
}

/** Gauss elimination of a positive definite 3 × 4 system. */
function solve3(m: number[][]): [number, number, number] {
  for (let k = 0; k < 3; k++)
    for (let r = 0; r < 3; r++) {
      if (r === k) continue;
      const factor = m[r][k] / m[k][k];
      for (let c = k; c < 4; c++) m[r][c] -= factor * m[k][c];
    }
  return [m[0][3] / m[0][0], m[1][3] / m[1][1], m[2][3] / m[2][2]];
}

/** Displacement (ux, uy, w) at a cell, linear between nodes. */
function shiftAt({ found, step, width, height }: Nodes, col: number, row: number, out: Float64Array): void {
  const c = Math.min(width - 1.001, col / step);
  const r = Math.min(height - 1.001, row / step);
  const k = 3 * (Math.floor(r) * width + Math.floor(c));
  const below = k + 3 * width;
  const fc = c - Math.floor(c);
  const fr = r - Math.floor(r);
  for (let t = 0; t < 3; t++)
    out[t] =
      (1 - fr) * ((1 - fc) * found[k + t] + fc * found[k + 3 + t]) +
      fr * ((1 - fc) * found[below + t] + fc * found[below + 3 + t]);
}

/** b(x + u) − w on the cells of a. */
function displaced(a: HeightGrid, b: SubjectSurface, nodes: Nodes): HeightGrid {
  const z = new Float32Array(a.z.length);
  const mask = new Uint8Array(a.mask.length);
  const shift = new Float64Array(3);
  for (let row = 0, i = 0; row < a.height; row++)
    for (let col = 0; col < a.width; col++, i++) {
      shiftAt(nodes, col, row, shift);
      const height = b.sharpAt(col + shift[0] / a.pitch, row - shift[1] / a.pitch);
      if (Number.isNaN(height)) continue;
      z[i] = height - shift[2];
      mask[i] = 1;
    }
  return withHeights(a, z, mask);
}
