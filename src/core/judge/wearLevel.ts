import {
  type HeightGrid,
  median,
  quantile,
  sampleGrid,
  sigmaFromMad,
  withHeights,
  xOf,
  yOf,
} from '../geometry/index.ts';

export const levelDefaults = {
  /** Nodes across the longer side on which the displacement is found, and reach of its smoothing in nodes (σ). */
  nodes: 24,
  reach: 2.2,
  rounds: 4,
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
 * `a`, `b`: positive sense, same cells, mm. Returns b(x + u) − w.
 */
export function levelPair(
  a: HeightGrid,
  b: HeightGrid,
  inside: Uint8Array,
  sizeMm: number,
  options = levelDefaults,
): HeightGrid {
  const slopes = slopesOf(a);
  const base = baseWeights(a, b, inside, options.raised);
  const field = displacementNodes(a, sizeMm, options);
  let current = b;
  for (let round = 0; round < options.rounds; round++) {
    accumulate(field, a, current, slopes, base, options);
    solveNodes(field, options);
    current = displaced(b, field);
  }
  return current;
}

interface Slopes {
  readonly x: Float32Array;
  readonly y: Float32Array;
}

/** Central differences, mm per mm; 0 beside missing data. */
export function slopesOf({ width, height, pitch, z, mask }: HeightGrid): Slopes {
  const x = new Float32Array(z.length);
  const y = new Float32Array(z.length);
  for (let row = 1; row < height - 1; row++)
    for (let col = 1; col < width - 1; col++) {
      const i = row * width + col;
      if (!(mask[i] && mask[i - 1] && mask[i + 1] && mask[i - width] && mask[i + width])) continue;
      x[i] = (z[i + 1] - z[i - 1]) / (2 * pitch);
      y[i] = (z[i - width] - z[i + width]) / (2 * pitch);
    }
  return { x, y };
}

/** 1 on the field, falling to `raised` on what stands up; 0 where either face has no data. */
function baseWeights(a: HeightGrid, b: HeightGrid, inside: Uint8Array, raised: number): Float32Array {
  const heights = a.z.filter((_, i) => inside[i] && a.mask[i] && i % 7 === 0);
  const low = quantile(heights, 0.35);
  const high = quantile(heights, 0.75);
  const span = Math.max(1e-3, high - low);
  return a.z.map((z, i) => {
    if (!(inside[i] && a.mask[i] && b.mask[i])) return 0;
    const t = Math.max(0, Math.min(1, (z - low) / span));
    return 1 - (1 - raised) * t;
  });
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

function accumulate(
  nodes: Nodes,
  a: HeightGrid,
  b: HeightGrid,
  slopes: Slopes,
  base: Float32Array,
  _: typeof levelDefaults,
): void {
  const { sums, step } = nodes;
  sums.fill(0);
  const scale = residualScale(a, b, base);
  for (let row = 0, i = 0; row < a.height; row++)
    for (let col = 0; col < a.width; col++, i++) {
      if (base[i] === 0 || !b.mask[i]) continue;
      const d = b.z[i] - a.z[i];
      // On a slope a small shift makes a large difference: the distance to the surface is what is weighed.
      const steep = 1 + slopes.x[i] ** 2 + slopes.y[i] ** 2;
      const t = d ** 2 / steep / (4.685 * scale) ** 2;
      if (t >= 1) continue;
      const weight = (1 - t) ** 2 / steep;
      const gx = -slopes.x[i];
      const gy = -slopes.y[i];
      const wz = weight * base[i];
      const at = terms * (Math.round(row / step) * nodes.width + Math.round(col / step));
      sums[at] += weight * gx * gx;
      sums[at + 1] += weight * gx * gy;
      sums[at + 2] += wz * gx;
      sums[at + 3] += weight * gy * gy;
      sums[at + 4] += wz * gy;
      sums[at + 5] += wz;
      sums[at + 6] += weight * gx * d;
      sums[at + 7] += weight * gy * d;
      sums[at + 8] += wz * d;
      sums[at + 9] += weight;
    }
  smoothNodes(nodes, levelDefaults.reach);
}

function residualScale(a: HeightGrid, b: HeightGrid, base: Float32Array): number {
  const sample: number[] = [];
  for (let i = 0; i < base.length; i += 5) if (base[i] > 0.5 && b.mask[i]) sample.push(Math.abs(b.z[i] - a.z[i]));
  return Math.max(1e-3, sigmaFromMad * median(sample));
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

/** b(x + u) − w on its own cells. */
function displaced(b: HeightGrid, nodes: Nodes): HeightGrid {
  const z = new Float32Array(b.z.length);
  const mask = new Uint8Array(b.mask.length);
  const { found, step, width } = nodes;
  const shift = new Float64Array(3);
  for (let row = 0, i = 0; row < b.height; row++)
    for (let col = 0; col < b.width; col++, i++) {
      const c = Math.min(nodes.width - 1.001, col / step);
      const r = Math.min(nodes.height - 1.001, row / step);
      const k = Math.floor(r) * width + Math.floor(c);
      const fc = c - Math.floor(c);
      const fr = r - Math.floor(r);
      for (let t = 0; t < 3; t++)
        shift[t] =
          (1 - fr) * ((1 - fc) * found[3 * k + t] + fc * found[3 * k + 3 + t]) +
          fr * ((1 - fc) * found[3 * (k + width) + t] + fc * found[3 * (k + width) + 3 + t]);
      const height = sampleGrid(b, xOf(b, col) + shift[0], yOf(b, row) + shift[1]);
      if (Number.isNaN(height)) continue;
      z[i] = height - shift[2];
      mask[i] = 1;
    }
  return withHeights(b, z, mask);
}
