import { type HeightGrid, withHeights } from '../geometry/index.ts';
import { grown } from './commonGrid.ts';
import { type LineMeans, lineMeans } from './lineMeans.ts';
import { partsOf } from './noise.ts';
import { leastPeak, type ScaleMap, scaleDefaults, scaleMap } from './scales.ts';

export const regionDefaults = {
  /** A peak counts from this many times the height that Gaussian noise passes: real noise has longer tails. */
  overGaussian: 1.35,
  /** The extent of a change: where a mean stands more than so many standard deviations out about a peak that counts; along lines. */
  extentSigmas: 2.5,
  lineSigmas: 3.2,
  /** And this share of its peak, where a coarser mean spreads what it shows. */
  extentShare: 0.4,
  /** Cells of the finest mean that make up a change: from so many standard deviations, where they hold this share of it. */
  fineSigmas: 2,
  fineShare: 0.6,
  /** A coarser mean adds to the extent where finer ones have less than this share of its peak. */
  knownShare: 0.6,
  /** The area of a change is where it reaches this share of its usual depth. */
  areaShare: 0.4,
  /** Pieces nearer to one another than twice this are one change, mm. */
  joinMm: 0.4,
  /** Cells of a change have no say in the registration, nor those within this distance of it, mm. */
  besideMm: 0.8,
};

/** What is measured of the noise once for a difference. */
export interface NoiseScales {
  readonly maps: readonly ScaleMap[];
  readonly inflation: readonly number[];
  /** Least |t| / inflation that counts, a map. */
  readonly least: readonly number[];
  readonly lines: LineMeans;
  readonly leastLine: number;
}

/** One part of the face that changed one way. */
export interface Region {
  readonly sign: 1 | -1;
  /** All that a mean shows of it: what its volume is summed over, since cells chosen one by one are chosen by their noise too. */
  readonly over: readonly number[];
  /** Where it can be told from nothing, and of that the cells that it takes by area. */
  readonly cells: readonly number[];
  readonly area: readonly number[];
  /** Times the least peak that counts. */
  readonly timesLeast: number;
}

/**
 * Means at every scale and along lines, their noise taken from the cells outside `changed`, and the peaks that count over
 * the whole face. `atLeast`: inflation that repeats show, a scale; `tails`: how far they pass the height that Gaussian noise passes.
 */
export function noiseScales(
  difference: HeightGrid,
  sigma: Float32Array,
  changed: Uint8Array | null,
  atLeast: readonly number[] = [],
  tails = regionDefaults.overGaussian,
): NoiseScales {
  const { sigmasMm, rate } = scaleDefaults;
  const usable = sigmasMm.filter((s) => s > 0.8 * difference.pitch);
  const areaMm2 = difference.mask.reduce((sum, m) => sum + m, 0) * difference.pitch ** 2;
  const maps = usable.map((s) => scaleMap(difference, sigma, s, changed));
  const lines = lineMeans(difference, sigma, changed);
  return {
    maps,
    inflation: maps.map(({ inflation }, k) => Math.max(inflation, atLeast[k] ?? 1)),
    least: usable.map((s) => tails * leastPeak(areaMm2, s, rate / (usable.length + 1))),
    lines,
    leastLine: tails * lines.leastGaussian,
  };
}

/** One way of looking at the difference: how far it stands out in one direction, and from where that counts. */
interface Lens {
  readonly value: (i: number) => number;
  readonly least: number;
  readonly extent: number;
  /** Share of its peak that the extent keeps. */
  readonly share: number;
}

function lensesOf({ maps, inflation, least, lines, leastLine }: NoiseScales, sign: 1 | -1): Lens[] {
  const { extentSigmas, extentShare, lineSigmas } = regionDefaults;
  const round = maps.map(
    ({ t }, k): Lens => ({
      value: (i) => (sign * t[i]) / inflation[k],
      least: least[k],
      extent: extentSigmas,
      share: extentShare,
    }),
  );
  const along = sign > 0 ? lines.raised : lines.lowered;
  const line: Lens = { value: (i) => along[i], least: leastLine, extent: lineSigmas, share: 0 };
  return [round[0], line, ...round.slice(1)];
}

/** The parts of the face where a mean at some scale stands out beyond what noise gives anywhere on it. */
export function changedRegions(difference: HeightGrid, scales: NoiseScales, options = regionDefaults): Region[] {
  return ([-1, 1] as const).flatMap((sign) => regionsOf(difference, scales, sign, options));
}

function regionsOf(
  { width, mask, z, pitch }: HeightGrid,
  scales: NoiseScales,
  sign: 1 | -1,
  options: typeof regionDefaults,
): Region[] {
  const lenses = lensesOf(scales, sign);
  const peak = new Float32Array(mask.length);
  const extent = new Uint8Array(mask.length);
  const claim = new Uint8Array(mask.length);
  for (const { value, least, extent: from, share } of lenses) {
    const reach = new Uint8Array(mask.length);
    for (let i = 0; i < mask.length; i++) {
      if (!mask[i]) continue;
      const here = value(i);
      peak[i] = Math.max(peak[i], here / least);
      if (here >= from) reach[i] = 1;
    }
    for (const { cells } of partsOf(reach, width)) {
      const strong = cells.filter((i) => value(i) >= least);
      const known = strong.filter((i) => extent[i]).length;
      if (strong.length === 0 || known >= Math.max(1, options.knownShare * strong.length)) continue;
      const highest = cells.reduce((most, i) => Math.max(most, value(i)), 0);
      const near = cells.filter((i) => value(i) >= Math.max(from, share * highest));
      for (const i of near) claim[i] = 1;
      for (const i of finest(near, lenses[0].value, (i) => sign * z[i], options)) extent[i] = 1;
    }
  }
  const all = claim.map((c, i) => (c || extent[i] ? 1 : 0)) as Uint8Array;
  return partsOf(grown(all, width, Math.round(options.joinMm / pitch)), width).map(({ cells }) =>
    regionOf(
      cells.filter((i) => all[i]),
      cells.filter((i) => extent[i]),
      sign,
      peak,
      scales,
      options,
    ),
  );
}

/** Of a change's cells those that the finest mean shows, where they hold most of it; else all. */
function finest(
  cells: readonly number[],
  value: (i: number) => number,
  height: (i: number) => number,
  { fineSigmas, fineShare }: typeof regionDefaults,
): readonly number[] {
  const fine = cells.filter((i) => value(i) >= fineSigmas);
  const sum = (list: readonly number[]): number => list.reduce((total, i) => total + height(i), 0);
  return sum(fine) >= fineShare * sum(cells) ? fine : cells;
}

function regionOf(
  over: readonly number[],
  cells: readonly number[],
  sign: 1 | -1,
  peak: Float32Array,
  { maps }: NoiseScales,
  options: typeof regionDefaults,
): Region {
  const { mean } = maps[0];
  const strong = cells.filter((i) => peak[i] >= 1).map((i) => sign * mean[i]);
  const usual = strong.sort((a, b) => a - b)[Math.floor(strong.length / 2)] ?? 0;
  return {
    sign,
    over,
    cells,
    area: cells.filter((i) => sign * mean[i] >= options.areaShare * usual),
    timesLeast: cells.reduce((most, i) => Math.max(most, peak[i]), 0),
  };
}

/** Cells of the regions and those beside them: no ground to register on. */
export function cellsBeside(difference: HeightGrid, regions: readonly Region[], options = regionDefaults): Uint8Array {
  const set = new Uint8Array(difference.mask.length);
  for (const { over } of regions) for (const i of over) set[i] = 1;
  return grown(set, difference.width, Math.round(options.besideMm / difference.pitch));
}

/** The same difference without the cells of a set. */
export const without = (difference: HeightGrid, set: Uint8Array): HeightGrid =>
  withHeights(
    difference,
    difference.z,
    difference.mask.map((m, i) => (m && !set[i] ? 1 : 0)),
  );
