import { type HeightGrid, median, quantileOfSorted, sigmaFromMad } from '../geometry/index.ts';

export const noiseDefaults = {
  /** Cells are put into so many classes of equal number by how rough the surface is. */
  classes: 12,
  /** A slope adds this share of a cell to the roughness: places differ sideways too. */
  slopeShare: 0.08,
};

/** How far a cell's neighbours stray from a plane, mm, and a share of its slope: what two scans' triangles may differ by there. */
export function roughnessOf(
  { width, z, mask, pitch }: HeightGrid,
  gx: Float32Array,
  gy: Float32Array,
  sound: Uint8Array,
  options = noiseDefaults,
): Float32Array {
  const out = new Float32Array(z.length);
  for (let i = 0; i < out.length; i++) {
    if (!sound[i]) continue;
    let [sum, n] = [0, 0];
    for (let dy = -1; dy <= 1; dy++)
      for (let dx = -1; dx <= 1; dx++) {
        const away = dy * width + dx;
        if (!(mask[i + away] && mask[i - away])) continue;
        sum += ((z[i + away] + z[i - away]) / 2 - z[i]) ** 2;
        n++;
      }
    out[i] = Math.sqrt(n > 0 ? sum / n : 0) + options.slopeShare * pitch * Math.hypot(gx[i], gy[i]);
  }
  return out;
}

/** Standard deviation of the difference by roughness, at the middle of each class. */
export interface CellNoise {
  /** Median roughness of each class, mm, ascending. */
  readonly roughnessMm: Float64Array;
  /** mm, a class. */
  readonly sigmaMm: Float64Array;
}

/** Robust spread of d in each class of roughness, over the cells that count. */
export function noiseByClass(
  roughness: Float32Array,
  difference: Float32Array,
  counts: (i: number) => boolean,
  { classes } = noiseDefaults,
): CellNoise {
  const cells: number[] = [];
  for (let i = 0; i < difference.length; i++) if (counts(i)) cells.push(i);
  const sorted = Float64Array.from(cells, (i) => roughness[i]).sort();
  const atClass = (k: number): number => (sorted.length > 0 ? quantileOfSorted(sorted, k / classes) : 0);
  const sizes: number[][] = Array.from({ length: classes }, () => []);
  const ends = sizes.slice(1).map((_, k) => atClass(k + 1));
  for (const i of cells) {
    const k = ends.findIndex((end) => roughness[i] <= end);
    sizes[k < 0 ? classes - 1 : k].push(Math.abs(difference[i]));
  }
  const sigmaMm = Float64Array.from(sizes, (size) => (size.length > 10 ? sigmaFromMad * median(size) : Number.NaN));
  const least = sigmaMm.reduce((low, s) => (s > 0 && s < low ? s : low), Number.POSITIVE_INFINITY);
  return {
    roughnessMm: Float64Array.from(sizes, (_, k) => atClass(k + 0.5)),
    sigmaMm: sigmaMm.map((s) => Math.max(Number.isFinite(least) ? least : 1e-6, s || 0)),
  };
}

/**
 * Standard deviation at a roughness, mm: between classes along a straight line, and beyond the middle of the roughest in
 * proportion, since what triangles miss is a share of it: beside a cliff it is many times its class's.
 */
export function sigmaAt({ roughnessMm, sigmaMm }: CellNoise, roughness: number): number {
  const last = sigmaMm.length - 1;
  if (roughness <= roughnessMm[0]) return sigmaMm[0];
  if (roughness >= roughnessMm[last]) return (sigmaMm[last] * roughness) / (roughnessMm[last] || roughness);
  let k = 1;
  while (roughnessMm[k] < roughness) k++;
  const share = (roughness - roughnessMm[k - 1]) / (roughnessMm[k] - roughnessMm[k - 1]);
  return sigmaMm[k - 1] + share * (sigmaMm[k] - sigmaMm[k - 1]);
}

/** The standard deviation of every cell, mm; 0 where it is not sound. */
export const sigmaMap = (roughness: Float32Array, sound: Uint8Array, noise: CellNoise): Float32Array =>
  roughness.map((value, i) => (sound[i] ? sigmaAt(noise, value) : 0));

export const loneDefaults = {
  /** It stands so many standard deviations off the median of the cells about it. */
  sigmas: 5,
  /** One vertex thrown out shows over the triangles about it: two edges and a cell to either side. */
  reachCells: 6,
  /** What takes no more cells than three each way nothing tells from it. */
  surelyCells: 9,
  /** Larger, it is a pyramid, of which a quarter stands above half of its height whatever its base; of a dint with a round floor half does. */
  topShare: 0.4,
};

/** 1 on cells that a single vertex may have thrown out. */
export function loneVertices(difference: HeightGrid, sigma: Float32Array, options = loneDefaults): Uint8Array {
  const { width, z, mask } = difference;
  const { sigmas, reachCells, surelyCells, topShare } = options;
  const beyond = new Float32Array(z.length);
  const window: number[] = [];
  for (let i = 0; i < z.length; i++) {
    if (!mask[i] || Math.abs(z[i]) < sigmas * sigma[i]) continue;
    window.length = 0;
    for (let dy = -3; dy <= 3; dy++)
      for (let dx = -3; dx <= 3; dx++) if (mask[i + dy * width + dx]) window.push(z[i + dy * width + dx]);
    beyond[i] = Math.max(0, Math.abs(z[i] - median(window)) - sigmas * sigma[i]);
  }
  const isPyramid = (cells: readonly number[]): boolean => {
    const half = cells.reduce((most, i) => Math.max(most, beyond[i]), 0) / 2;
    return cells.filter((i) => beyond[i] >= half).length <= topShare * cells.length;
  };
  const out = new Uint8Array(z.length);
  for (const part of partsOf(Uint8Array.from(beyond, Math.sign), width))
    if (Math.max(part.across, part.down) <= reachCells && (part.cells.length <= surelyCells || isPyramid(part.cells)))
      for (const i of part.cells) out[i] = 1;
  return out;
}

export interface Part {
  readonly cells: number[];
  /** Columns and rows that it takes. */
  readonly across: number;
  readonly down: number;
}

/** Parts that hang together, corners included. */
export function partsOf(set: Uint8Array, width: number): Part[] {
  const seen = new Uint8Array(set.length);
  const parts: Part[] = [];
  for (let start = 0; start < set.length; start++) {
    if (!set[start] || seen[start]) continue;
    seen[start] = 1;
    const cells = [start];
    let [left, right, top, bottom] = [width, 0, set.length, 0];
    for (let at = 0; at < cells.length; at++) {
      const col = cells[at] % width;
      const row = Math.floor(cells[at] / width);
      [left, right, top, bottom] = [
        Math.min(left, col),
        Math.max(right, col),
        Math.min(top, row),
        Math.max(bottom, row),
      ];
      for (let dy = -1; dy <= 1; dy++)
        for (let dx = -1; dx <= 1; dx++) {
          const k = cells[at] + dy * width + dx;
          if (col + dx < 0 || col + dx >= width || !set[k] || seen[k]) continue;
          seen[k] = 1;
          cells.push(k);
        }
    }
    parts.push({ cells, across: right - left + 1, down: bottom - top + 1 });
  }
  return parts;
}
