import { type HeightGrid, median, quantileOfSorted, sigmaFromMad } from '../geometry/index.ts';

export const noiseDefaults = {
  /** Cells are put into so many classes of equal number by how rough the surface is. */
  classes: 12,
  /** A slope adds this share of a cell to the roughness: places differ sideways too. */
  slopeShare: 0.08,
};

/** How far each cell's surroundings stray from a plane, mm: what linear interpolation between a scan's points may miss there. */
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
        const k = i + 2 * (dy * width + dx);
        const opposite = i - 2 * (dy * width + dx);
        if (!(mask[k] && mask[opposite])) continue;
        sum += ((z[k] + z[opposite]) / 2 - z[i]) ** 2;
        n++;
      }
    out[i] = Math.sqrt(n > 0 ? sum / n : 0) + options.slopeShare * pitch * Math.hypot(gx[i], gy[i]);
  }
  return out;
}

/** Standard deviation of the difference by class of roughness. */
export interface CellNoise {
  /** Upper ends of the classes, mm of roughness; the last is open. */
  readonly ends: Float64Array;
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
  const ends = Float64Array.from({ length: classes }, (_, k) =>
    k === classes - 1 ? Number.POSITIVE_INFINITY : quantileOfSorted(sorted, (k + 1) / classes),
  );
  const sizes: number[][] = Array.from({ length: classes }, () => []);
  for (const i of cells) sizes[classOf(ends, roughness[i])].push(Math.abs(difference[i]));
  const sigmaMm = Float64Array.from(sizes, (size) => (size.length > 10 ? sigmaFromMad * median(size) : Number.NaN));
  const least = sigmaMm.reduce((low, s) => (s > 0 && s < low ? s : low), Number.POSITIVE_INFINITY);
  return { ends, sigmaMm: sigmaMm.map((s) => Math.max(Number.isFinite(least) ? least : 1e-6, s || 0)) };
}

export function classOf(ends: Float64Array, value: number): number {
  let k = 0;
  while (k < ends.length - 1 && value > ends[k]) k++;
  return k;
}

/** The standard deviation of every cell, mm; 0 where it is not sound. */
export const sigmaMap = (roughness: Float32Array, sound: Uint8Array, noise: CellNoise): Float32Array =>
  roughness.map((value, i) => (sound[i] ? noise.sigmaMm[classOf(noise.ends, value)] : 0));

/**
 * 1 on cells that a single vertex may have thrown out: they stand more than `times` σ off the median of the cells about
 * them, and hang together over no more than `reachCells` each way.
 */
export function loneVertices(difference: HeightGrid, sigma: Float32Array, reachCells: number, times = 5): Uint8Array {
  const { width, z, mask } = difference;
  const out = new Uint8Array(z.length);
  const window: number[] = [];
  for (let i = 0; i < z.length; i++) {
    if (!mask[i] || Math.abs(z[i]) < times * sigma[i]) continue;
    window.length = 0;
    for (let dy = -3; dy <= 3; dy++)
      for (let dx = -3; dx <= 3; dx++) if (mask[i + dy * width + dx]) window.push(z[i + dy * width + dx]);
    if (Math.abs(z[i] - median(window)) > times * sigma[i]) out[i] = 1;
  }
  return keepSmall(out, width, reachCells);
}

/** Of the parts of a set, those no wider and no higher than `most` cells. */
function keepSmall(set: Uint8Array, width: number, most: number): Uint8Array {
  const out = new Uint8Array(set.length);
  for (const { cells, across, down } of partsOf(set, width))
    if (across <= most && down <= most) for (const i of cells) out[i] = 1;
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
