import { distanceTransform, type HeightGrid, median, quantile, withHeights } from '../../geometry/index.ts';
import type { LossField } from '../wearLoss.ts';
import { sampled } from '../wearParts.ts';
import type { WearRelief } from '../wearRelief.ts';
import { type Chain, chainsOf } from './chains.ts';
import { type LineField, lineDefaults, lineField } from './lineField.ts';

/** A line that does not belong to the design both share, and who carries it. Heights in the positive's sense, mm. */
export interface LineMark {
  readonly chain: Chain;
  readonly carriedBy: 'reference' | 'subject' | 'both';
  /** Height of the crest over its sides: positive a ridge, negative a groove. */
  readonly onReferenceMm: number;
  readonly onSubjectMm: number;
}

export const lineMarkDefaults = {
  /** Least strength of a crest in the difference: mm, and standard deviations there. */
  leastMm: 0.03,
  leastSigma: 1.5,
  /** The line as a whole stands out by so many standard deviations. */
  standsOut: 2.2,
  /** Least strength × length of a line that only one face carries, mm²; more where the reference carries it. */
  leastSubject: 0.45,
  leastReference: 0.42,
  leastLengthMm: 1.8,
  /** The face without the line shows at most this share of it; where the subject may only be worn, this. */
  otherShare: 0.35,
  otherShareWorn: 0.18,
  /** A line of so much strength × length, mm², that crosses the design may show this share of it there. */
  strong: 1.2,
  otherShareStrong: 0.33,
  /** A line that the reference alone carries is read in worn parts only when longer than this share of the size. */
  longShare: 0.3,
  /** … and a part is sound when narrow forms around the line keep this much of their height. */
  leastKept: 0.5,
  /** Lines on both faces: strength, mm; share of the length that is seen; stray from straight as a share of it. */
  bothMm: 0.05,
  bothLength: 0.22,
  /** Unbroken: it stands this share of its usual height, but for gaps up to so long, over so much of its length. */
  standing: 0.25,
  gapMm: 1.3,
  seen: 0.85,
  /** Strength × length from which a shared line counts, mm². */
  leastShared: 1.2,
  /** Where they must begin and reach, and the widest gap, in widths of the band from its outer and inner edge. */
  from: 0.2,
  beyond: 0.2,
  mostGap: 0.2,
  /** The part that is looked at closely reaches so far beyond the band's inner edge. */
  section: 0.5,
  bothCover: 0.6,
  bothStray: 0.09,
};

/**
 * Lines of damage: from the difference those that one face has and the other lacks, and from both faces those that
 * run across the legend's band as no letter or border does.
 */
export function lineMarks(
  relief: WearRelief,
  loss: LossField,
  band: Uint8Array,
  options = lineMarkDefaults,
): LineMark[] {
  const single = differenceLines(relief, loss, options);
  return [...single, ...sharedLines(relief, single, band, options)];
}

function differenceLines(relief: WearRelief, loss: LossField, options: typeof lineMarkDefaults): LineMark[] {
  const grid = differenceGrid(relief);
  const field = lineField([grid]);
  const least = (i: number): number => Math.max(options.leastMm, options.leastSigma * loss.sigma[i]);
  const found: LineMark[] = [];
  const narrow = narrowForms(relief);
  for (const sign of [1, -1] as const)
    for (const chain of chainsIn(grid, field, sign, least, relief.sizeMm)) {
      if (chain.lengthMm < options.leastLengthMm) continue;
      const sigma = median(chain.cells.map((i) => loss.sigma[i]));
      if (chain.strengthMm < options.standsOut * sigma) continue;
      const mark = readLine(relief, chain, sign, narrow, options);
      if (mark) found.push(mark);
    }
  return found;
}

const chainsIn = (
  grid: HeightGrid,
  field: LineField,
  sign: 1 | -1,
  least: (i: number) => number,
  sizeMm: number,
): Chain[] =>
  sign === 1
    ? chainsOf(grid, field.ridge, field.ridgeAlong, lineDefaults.directions, least, sizeMm)
    : chainsOf(grid, field.groove, field.grooveAlong, lineDefaults.directions, least, sizeMm);

function differenceGrid({ reference, difference, inside }: WearRelief): HeightGrid {
  const mask = Uint8Array.from(difference, (value, i) => (inside[i] && !Number.isNaN(value) ? 1 : 0));
  return withHeights(
    reference,
    difference.map((value, i) => (mask[i] ? value : 0)),
    mask,
  );
}

/** Which face has the line; null where both do in part, as on a worn stroke of the design. */
function readLine(
  relief: WearRelief,
  chain: Chain,
  sign: 1 | -1,
  narrow: Narrow,
  options: typeof lineMarkDefaults,
): LineMark | null {
  const onReferenceMm = crestHeight(relief.reference, relief, chain);
  const onSubjectMm = crestHeight(relief.subject, relief, chain);
  const weight = chain.strengthMm * chain.lengthMm;
  const line = { chain, onReferenceMm, onSubjectMm };
  if (sign * onSubjectMm > 0 && Math.abs(onReferenceMm) <= options.otherShare * Math.abs(onSubjectMm))
    return weight >= options.leastSubject ? { ...line, carriedBy: 'subject' } : null;
  if (!(sign * onReferenceMm < 0) || weight < options.leastReference) return null;
  const share = Math.abs(onSubjectMm / onReferenceMm);
  // What the reference raises and the subject lacks may be a stroke rubbed away: only long lines, or lines on sound ground.
  if (sign === 1) return share <= options.otherShare ? { ...line, carriedBy: 'reference' } : null;
  const strong = weight > options.strong;
  if (share > (strong ? options.otherShareStrong : options.otherShareWorn)) return null;
  const long = chain.lengthMm > options.longShare * relief.sizeMm;
  return long || keptAround(relief, narrow, chain) > options.leastKept ? { ...line, carriedBy: 'reference' } : null;
}

/** Median height of the line's cells over the mean of both sides, mm. */
function crestHeight(grid: HeightGrid, { reference, subject }: WearRelief, { cells, ux, uy }: Chain): number {
  const beside = Math.max(2, lineDefaults.besideMm / grid.pitch);
  const step = Math.round(-ux * beside) * grid.width + Math.round(-uy * beside);
  const both = (i: number): boolean => reference.mask[i] === 1 && subject.mask[i] === 1;
  const heights = cells
    .filter((i) => both(i) && both(i + step) && both(i - step))
    .map((i) => grid.z[i] - (grid.z[i + step] + grid.z[i - step]) / 2);
  return heights.length > 0 ? median(heights) : 0;
}

/**
 * What narrow forms about the line keep of their height on the subject, Σ a b / Σ a² over the cells 1.2 to 4 mm aside; 1 where there is
 * hardly any form to tell by.
 */
function keptAround(relief: WearRelief, narrow: Narrow, { cells, ux, uy }: Chain): number {
  const { reference, subject } = relief;
  const { width, pitch } = reference;
  let [count, aa, ab] = [0, 0, 0];
  for (const i of cells)
    for (let aside = 1.2; aside <= 4; aside += Math.max(0.3, pitch))
      for (const way of [-1, 1]) {
        const j = i + Math.round((-ux * way * aside) / pitch) * width + Math.round((-uy * way * aside) / pitch);
        if (!(reference.mask[j] && subject.mask[j])) continue;
        count++;
        if (narrow.reference[j] < narrow.least) continue;
        aa += narrow.reference[j] ** 2;
        ab += narrow.reference[j] * narrow.subject[j];
      }
  return count > 0 && aa > 0.02 * count * narrow.least ** 2 ? ab / aa : 1;
}

interface Narrow {
  readonly reference: Float32Array;
  readonly subject: Float32Array;
  /** Height from which a narrow form counts, mm. */
  readonly least: number;
}

function narrowForms({ reference, narrow, inside }: WearRelief): Narrow {
  const least = quantile(
    sampled(narrow.reference, (i) => inside[i] === 1 && reference.mask[i] === 1),
    0.9,
  );
  return { ...narrow, least };
}

/**
 * Ridges that both faces show and that cross the legend's band: they run through it for more than its own width at a
 * steep angle to the outline, which strokes of letters and borders do not, and on into the field or to the rim.
 */
function sharedLines(
  relief: WearRelief,
  single: readonly LineMark[],
  band: Uint8Array,
  options: typeof lineMarkDefaults,
): LineMark[] {
  const mask = relief.inside.map((value, i) => (value && relief.reference.mask[i] && relief.subject.mask[i] ? 1 : 0));
  const a = withHeights(relief.reference, relief.reference.z, mask);
  const b = withHeights(relief.subject, relief.subject.z, mask);
  const field = lineField([a, b]);
  const crossing = acrossBand(relief, band, options);
  return chainsIn(a, field, 1, () => options.bothMm, relief.sizeMm)
    .filter((chain) => {
      if (chain.strayMm > Math.max(0.8, options.bothStray * chain.lengthMm)) return false;
      if ((chain.cells.length * a.pitch) / chain.lengthMm < options.bothCover) return false;
      if (chain.lengthMm < options.bothLength * relief.sizeMm) return false;
      if (chain.strengthMm * chain.lengthMm < options.leastShared) return false;
      return crossing(chain).some((cells) => unbroken(a, b, { ...chain, cells }, options));
    })
    .filter((chain) => !single.some((line) => overlaps(line.chain, chain)))
    .map((chain) => ({
      chain,
      carriedBy: 'both' as const,
      onReferenceMm: crestHeight(relief.reference, relief, chain),
      onSubjectMm: crestHeight(relief.subject, relief, chain),
    }));
}

/**
 * The parts of a line that cross the whole band without a break: from near its outer edge to beyond its inner one, on one of its
 * two ends, with no gap wider than a fifth of the band. A stem of a letter in line with a stroke of the motif has one.
 */
function acrossBand(
  { inside, reference }: WearRelief,
  band: Uint8Array,
  options: typeof lineMarkDefaults,
): (chain: Chain) => number[][] {
  const depth = distanceTransform(inside, reference.width);
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

/** Whether both faces stand up along nearly all of the line, without a gap longer than `gapMm`, before any averaging. */
function unbroken(a: HeightGrid, b: HeightGrid, { cells, ux, uy }: Chain, options: typeof lineMarkDefaults): boolean {
  const { width, pitch } = a;
  const beside = Math.max(2, lineDefaults.besideMm / pitch);
  const step = Math.round(-ux * beside) * width + Math.round(-uy * beside);
  const side = Math.abs(ux) > Math.abs(uy) ? width : 1;
  const ridge = (i: number): number => Math.min(...[a.z, b.z].map((z) => z[i] - Math.max(z[i + step], z[i - step])));
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
