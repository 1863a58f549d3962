import { type HeightGrid, median, quantile, sigmaFromMad } from '../../../geometry/index.ts';
import { type Chain, placesAlong } from './chains.ts';

/** A line mark's extent. */
export interface LineMeasure {
  /** x, y pairs in the grid's frame, mm. */
  readonly outline: Float64Array;
  readonly areaMm2: number;
  /** Height or depth of the crest that nine tenths of it do not exceed, mm. */
  readonly depthMm: number;
  readonly volumeMm3: number;
  /** From end to end where it stands at least a quarter of its depth off its sides, mm. */
  readonly lengthMm: number;
  /** Full width at half depth, mm. */
  readonly widthMm: number;
}

const reachMm = 1.4;
/** Cells farther aside than so many standard deviations (from the median) are none of the line's. */
const farOff = 3;

/**
 * Measures a line on a surface `height` (NaN without data) where it stands off its sides: the mean section across gives the width at half
 * height; area = width × length shown; volume = mean section's area × length shown. Heights and lengths in mm.
 */
export function measureLine(grid: HeightGrid, height: Float32Array, chain: Chain): LineMeasure {
  const { cells, ux, uy } = chain;
  const { width, pitch } = grid;
  const reach = Math.max(2, Math.round(reachMm / pitch));
  const step = (t: number): number => Math.round(-ux * t) * width + Math.round(-uy * t);
  const sidesOf = (i: number): number => {
    const [one, two] = [height[i + step(reach)], height[i - step(reach)]];
    return Number.isNaN(one) ? two : Number.isNaN(two) ? one : (one + two) / 2;
  };
  // A cell without any side counts as not standing.
  const crests = cells.map((i) => Math.abs(height[i] - sidesOf(i)) || 0);
  const depthMm = quantile(crests, 0.9) || 0;
  // The averaging that found the line reaches beyond its ends: what does not stand there is not counted.
  const standing = cells.filter((_, k) => crests[k] > 0.25 * depthMm);
  const places = standing.map((i) => ((i % width) * ux - Math.floor(i / width) * uy) * pitch);
  const lengthMm = places.length > 0 ? Math.max(...places) - Math.min(...places) + pitch : 0;
  const piece = 1.5 * pitch;
  const shown = Math.min(lengthMm, new Set(places.map((at) => Math.round(at / piece))).size * piece);
  const mean = meanSection(height, standing, reach, step, sidesOf);
  const widthMm = Math.max(pitch, widthAtHalf(mean, reach) * pitch);
  return {
    outline: band(grid, chain, widthMm),
    areaMm2: widthMm * shown,
    depthMm,
    lengthMm,
    volumeMm3: mean.reduce((sum, value) => sum + value, 0) * pitch * shown,
    widthMm,
  };
}

/** Mean height over the sides, by distance aside in cells, of whichever sign the middle has; 0 where of the other. */
function meanSection(
  height: Float32Array,
  cells: readonly number[],
  reach: number,
  step: (t: number) => number,
  sidesOf: (i: number) => number,
): Float64Array {
  const sum = new Float64Array(2 * reach + 1);
  for (const i of cells) {
    const sides = sidesOf(i);
    for (let t = -reach; t <= reach; t++) {
      const value = height[i + step(t)] - sides;
      if (Number.isFinite(value)) sum[t + reach] += value / cells.length;
    }
  }
  const sign = sum[reach] < 0 ? -1 : 1;
  return sum.map((value) => Math.max(0, sign * value));
}

/** Full width at half the middle's height, in cells, linear between cells. */
function widthAtHalf(section: Float64Array, middle: number): number {
  const half = section[middle] / 2;
  const edge = (way: 1 | -1): number => {
    for (let t = 1; t <= middle; t++) {
      const before = section[middle + way * (t - 1)];
      const at = section[middle + way * t];
      if (at < half) return t - 1 + (before - half) / Math.max(1e-9, before - at);
    }
    return middle;
  };
  return edge(1) + edge(-1);
}

/** A strip about the line: its course in pieces of about 1.5 mm, half the width to either side. */
function band(grid: HeightGrid, chain: Chain, widthMm: number): Float64Array {
  const { x, y, ux, uy } = chain;
  const all = placesAlong(grid, chain);
  // Where a form beside it pulled the line aside, its course is not followed.
  const aside = farOff * sigmaFromMad * median(all.map(([, v]) => Math.abs(v)));
  const points = all.filter(([, v]) => Math.abs(v) <= Math.max(aside, widthMm));
  const from = Math.min(...points.map(([u]) => u));
  const to = Math.max(...points.map(([u]) => u));
  const pieces = Math.max(1, Math.round((to - from) / 1.5));
  const course: [number, number][] = [];
  for (let k = 0; k <= pieces; k++) {
    const u = from + ((to - from) * k) / pieces;
    const near = points.filter(([at]) => Math.abs(at - u) < 1.2);
    if (near.length > 0) course.push([u, near.reduce((sum, [, v]) => sum + v, 0) / near.length]);
  }
  const half = Math.max(widthMm / 2, grid.pitch);
  const place = ([u, v]: [number, number]): [number, number] => [x + u * ux - v * uy, y + u * uy + v * ux];
  const right = course.map(([u, v]) => place([u, v - half]));
  const leftSide = course.map(([u, v]) => place([u, v + half])).reverse();
  return Float64Array.from([...right, ...leftSide].flat());
}
