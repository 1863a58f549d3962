import type { Face } from '../face/index.ts';
import { type HeightGrid, quantileOfSorted } from '../geometry/index.ts';

/** The legend's band, as distances inward from the outline, mm. */
export interface LegendBand {
  readonly legendOuterMm: number;
  readonly legendInnerMm: number;
  /** Where the motif's ground begins: the inner edge of the inner border line. */
  readonly insideMm: number;
  /** What the band was found by: border lines, the gap inside the letters, or nothing but the usual proportions. */
  readonly bandFrom: 'lines' | 'gap' | 'assumed';
}

export const bandDefaults = {
  /** Share of its own design height at which the middle height of a ring counts as a line. */
  lineHeight: 0.5,
  /** A ring that is wider than this share of the face's short side is no line. */
  widestLine: 0.07,
  /** Height of letters between the lines, as shares of the short side. */
  leastBand: 0.06,
  widestBand: 0.3,
  /** How far inward border lines are looked for, as a share of the short side. */
  deepest: 0.4,
  /** Band where nothing is found. */
  assumed: [0.03, 0.2] as const,
};

/** One ring of cells at one distance from the outline. */
interface Ring {
  /** 0.15, 0.5 and 0.85 quantiles of the height, mm. */
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

/**
 * Finds the legend's band. Rings of constant distance from the outline are one cell wide; where a border line runs,
 * plain, corded or beaded, the middle height of the ring stands near its high end, while across letters most of a ring
 * is ground. Of the lines found, the two with the widest letter-high gap between them bound the legend; with one
 * or none, the inner bound is the quietest ring inside the letters. `detail` has the design upward; `depth` in mm.
 */
export function findLegendBand(
  detail: HeightGrid,
  depth: Float32Array,
  { outline, noiseMm }: Pick<Face, 'outline' | 'noiseMm'>,
  options = bandDefaults,
): LegendBand {
  const short = Math.min(outline.widthMm, outline.heightMm);
  const rings = ringsOf(detail, depth, options.deepest * short);
  const step = detail.pitch;
  const lines = linesOf(rings, step, 4 * noiseMm, options.lineHeight).filter(
    ([from, to]) => to - from <= options.widestLine * short,
  );
  const pair = widestPair(lines, options.leastBand * short, options.widestBand * short);
  if (pair) return { legendOuterMm: pair[0][1], legendInnerMm: pair[1][0], insideMm: pair[1][1], bandFrom: 'lines' };
  const outer = lines.find(([, to]) => to < 0.12 * short)?.[1] ?? options.assumed[0] * short;
  const gap = quietRing(rings, step, outer + options.leastBand * short, outer + options.widestBand * short, outer);
  const inner = gap ?? options.assumed[1] * short;
  return { legendOuterMm: outer, legendInnerMm: inner, insideMm: inner, bandFrom: gap === null ? 'assumed' : 'gap' };
}

function ringsOf({ z, mask, pitch }: HeightGrid, depth: Float32Array, deepestMm: number): Ring[] {
  const count = Math.max(1, Math.ceil(deepestMm / pitch));
  const heights: number[][] = Array.from({ length: count }, () => []);
  for (let i = 0; i < z.length; i++) {
    const ring = Math.floor(depth[i] / pitch);
    if (mask[i] && depth[i] > 0 && ring < count) heights[ring].push(z[i]);
  }
  return heights.map((values) => {
    const sorted = Float64Array.from(values).sort();
    const [low, middle, high] = [0.15, 0.5, 0.85].map((q) => quantileOfSorted(sorted, q));
    return { low, middle, high };
  });
}

/** Stretches of rings, as [from, to) in mm, whose middle stands high above the ground on both sides. */
function linesOf(rings: readonly Ring[], step: number, leastMm: number, lineHeight: number): [number, number][] {
  const reach = Math.max(2, Math.round(rings.length / 12));
  const lines: [number, number][] = [];
  for (let k = 0; k < rings.length; k++) {
    if (!isLine(rings, k, reach, leastMm, lineHeight)) continue;
    const last = lines[lines.length - 1];
    if (last && k * step - last[1] < 0.5 * step) last[1] = (k + 1) * step;
    else lines.push([k * step, (k + 1) * step]);
  }
  return lines;
}

function isLine(rings: readonly Ring[], k: number, reach: number, leastMm: number, lineHeight: number): boolean {
  const before = groundOf(rings, k - reach, k);
  const after = groundOf(rings, k + 1, k + 1 + reach);
  const ground = Math.max(Number.isNaN(before) ? after : before, after);
  const height = rings[k].high - ground;
  return height > leastMm && rings[k].middle - ground > lineHeight * height;
}

/** Least middle height of the rings from `from` to `to`; NaN where there are none. */
function groundOf(rings: readonly Ring[], from: number, to: number): number {
  let least = Number.NaN;
  for (let k = Math.max(0, from); k < Math.min(rings.length, to); k++)
    if (!(rings[k].middle >= least)) least = rings[k].middle;
  return least;
}

function widestPair(lines: readonly [number, number][], least: number, most: number) {
  let best: readonly [[number, number], [number, number]] | null = null;
  for (let k = 0; k + 1 < lines.length; k++) {
    const gap = lines[k + 1][0] - lines[k][1];
    if (gap < least || gap > most || (best && gap <= best[1][0] - best[0][1])) continue;
    best = [lines[k], lines[k + 1]];
  }
  return best;
}

/** The middle of the quietest ring between two distances, if it is much quieter than the band outside it; else null. */
function quietRing(rings: readonly Ring[], step: number, from: number, to: number, outer: number): number | null {
  const spread = rings.map(({ low, high }) => high - low);
  const first = Math.round(from / step);
  const last = Math.min(rings.length - 1, Math.round(to / step));
  let at = first;
  for (let k = first; k <= last; k++) if (spread[k] < spread[at]) at = k;
  const letters = spread.slice(Math.round(outer / step), first);
  const usual = quantileOfSorted(Float64Array.from(letters).sort(), 0.5);
  return spread[at] < 0.5 * usual ? (at + 0.5) * step : null;
}
