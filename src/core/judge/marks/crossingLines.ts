import { type HeightGrid, median, quantile, withHeights } from '../../geometry/index.ts';
import type { WearRelief } from '../wearRelief.ts';
import type { Chain } from './chains.ts';
import { lineDefaults, lineField } from './lineField.ts';
import { chainsIn, crestHeight, type LineMark } from './lines.ts';

export const crossingDefaults = {
  /** Least strength, mm; least length as a share of the size. */
  leastMm: 0.05,
  leastLength: 0.22,
  /** Unbroken: it stands this share of its usual height, but for gaps up to so long, over so much of its length. */
  standing: 0.25,
  gapMm: 1.3,
  seen: 0.85,
  /** Least strength × length, mm². */
  leastWeight: 1.2,
  /** Where they must begin and reach, and the widest gap, in widths of the band from its outer and inner edge. */
  from: 0.2,
  beyond: 0.2,
  mostGap: 0.2,
  /** The part that is looked at closely reaches so far beyond the band's inner edge. */
  section: 0.5,
  /** Share of the length that crests cover, and stray from straight as a share of it. */
  cover: 0.6,
  stray: 0.05,
  /** One face alone is looked at where this share of the reference has no counterpart, with so much more strength × length and so much less stray. */
  leastMissing: 0.08,
  alone: 2,
};

type Options = typeof crossingDefaults;

/**
 * Ridges that cross the legend's band as no letter or border does, found on the faces themselves and not from their
 * difference: those that both carry, and those on one face where the other is missing. `found`: lines known already.
 * `band`: cells of the legend.
 */
export function crossingLines(
  relief: WearRelief,
  found: readonly LineMark[],
  band: Uint8Array,
  options = crossingDefaults,
): LineMark[] {
  const { reference, subject, inside } = relief;
  const cells = (use: (i: number) => boolean): Uint8Array => inside.map((value, i) => (value && use(i) ? 1 : 0));
  const both = cells((i) => reference.mask[i] === 1 && subject.mask[i] === 1);
  const crossing = acrossBand(relief, band, options);
  const shared = crossingIn(
    [withHeights(reference, reference.z, both), withHeights(subject, subject.z, both)],
    relief.sizeMm,
    crossing,
    1,
    options,
  )
    .filter((chain) => !found.some((line) => overlaps(line.chain, chain)))
    .map((chain) => markOf(relief, chain, 'both'));
  const alone = (['reference', 'subject'] as const).flatMap((carriedBy) => {
    const own = relief[carriedBy];
    const other = relief[carriedBy === 'reference' ? 'subject' : 'reference'];
    const here = cells((i) => own.mask[i] === 1);
    const unseen = (i: number): boolean => here[i] === 1 && other.mask[i] === 0;
    if (count(here, unseen) < options.leastMissing * count(here, (i) => here[i] === 1)) return [];
    return crossingIn([withHeights(own, own.z, here)], relief.sizeMm, crossing, options.alone, options)
      .filter((chain) => chain.cells.filter(unseen).length > 0.6 * chain.cells.length)
      .map((chain) => markOf(relief, chain, carriedBy));
  });
  return [...shared, ...alone];
}

function count(cells: Uint8Array, test: (i: number) => boolean): number {
  let n = 0;
  for (let i = 0; i < cells.length; i++) if (test(i)) n++;
  return n;
}

function markOf(relief: WearRelief, chain: Chain, carriedBy: LineMark['carriedBy']): LineMark {
  return {
    chain,
    carriedBy,
    onReferenceMm: carriedBy === 'subject' ? 0 : crestHeight(relief.reference, chain),
    onSubjectMm: carriedBy === 'reference' ? 0 : crestHeight(relief.subject, chain),
  };
}

/** Ridges that all the grids show and that cross the band unbroken. */
function crossingIn(
  grids: readonly HeightGrid[],
  sizeMm: number,
  crossing: (chain: Chain) => number[][],
  times: number,
  options: Options,
): Chain[] {
  const field = lineField(grids, true);
  const { pitch } = grids[0];
  return chainsIn(grids[0], field, 1, () => options.leastMm, sizeMm).filter((chain) => {
    if (chain.strayMm > Math.max(0.5, (options.stray / times) * chain.lengthMm)) return false;
    if ((chain.cells.length * pitch) / chain.lengthMm < options.cover) return false;
    if (chain.lengthMm < options.leastLength * sizeMm) return false;
    if (chain.strengthMm * chain.lengthMm < times * options.leastWeight) return false;
    return crossing(chain).some((cells) => unbroken(grids, { ...chain, cells }, options));
  });
}

/**
 * The parts of a line that cross the whole band without a break: from near its outer edge to beyond its inner one, on one of its
 * two ends, with no gap wider than a fifth of the band. A stem of a letter in line with a stroke of the motif has one.
 */
function acrossBand({ fromEdge: depth }: WearRelief, band: Uint8Array, options: Options): (chain: Chain) => number[][] {
  const inBand = depth.filter((_, i) => band[i] === 1);
  const outer = quantile(inBand, 0.05);
  const inner = quantile(inBand, 0.95);
  const width = inner - outer;
  const crosses = (cells: readonly number[]): boolean => {
    const depths = cells
      .map((i) => depth[i])
      .filter((value) => value < inner + 2 * width)
      .sort((p, q) => p - q);
    if (depths.length < 4) return false;
    let [at, most] = [depths[0], 0];
    for (const value of depths) {
      if (value < inner + options.beyond * width) most = Math.max(most, value - at);
      at = value;
    }
    return (
      depths[0] < outer + options.from * width && at > inner + options.beyond * width && most < options.mostGap * width
    );
  };
  return ({ cells }: Chain): number[][] => {
    if (!(width > 2)) return [];
    const deepest = cells.reduce((best, i, k) => (depth[i] > depth[cells[best]] ? k : best), 0);
    const ends = [cells.slice(0, deepest + 1), cells.slice(deepest)];
    return ends.filter(crosses).map((end) => end.filter((i) => depth[i] < inner + options.section * width));
  };
}

/** Whether the faces stand up along nearly all of the line, without a gap longer than `gapMm`, before any averaging. */
function unbroken(grids: readonly HeightGrid[], { cells, ux, uy }: Chain, options: Options): boolean {
  const { width, pitch } = grids[0];
  const beside = Math.max(2, lineDefaults.besideMm / pitch);
  const step = Math.round(-ux * beside) * width + Math.round(-uy * beside);
  const side = Math.abs(ux) > Math.abs(uy) ? width : 1;
  const ridge = (i: number): number => Math.min(...grids.map(({ z }) => z[i] - Math.max(z[i + step], z[i - step])));
  const bins = new Map<number, number>();
  const along = (i: number): number => Math.round((i % width) * ux - Math.floor(i / width) * uy);
  for (const i of cells)
    bins.set(along(i), Math.max(bins.get(along(i)) ?? -1, ridge(i), ridge(i + side), ridge(i - side)));
  const first = along(cells[0]);
  const last = along(cells[cells.length - 1]);
  const usual = median([...bins.values()]);
  let [gap, longest, seen] = [0, 0, 0];
  for (let k = Math.min(first, last); k <= Math.max(first, last); k++) {
    const stands = (bins.get(k) ?? -1) > options.standing * usual;
    gap = stands ? 0 : gap + 1;
    longest = Math.max(longest, gap);
    if (stands) seen++;
  }
  return longest * pitch < options.gapMm && seen > options.seen * (Math.abs(last - first) + 1);
}

function overlaps(a: Chain, b: Chain): boolean {
  const cells = new Set(a.cells);
  return b.cells.filter((i) => cells.has(i)).length > 0.3 * Math.min(a.cells.length, b.cells.length);
}
