import { type HeightGrid, median, quantile, withHeights } from '../../../geometry/index.ts';
import type { LossField } from '../../relief/loss.ts';
import { sampled } from '../../relief/parts.ts';
import type { WearRelief } from '../../relief/relief.ts';
import { type Chain, chainsOf } from './chains.ts';
import { type LineField, lineDefaults, lineField } from './lineField.ts';

/** A line that does not belong to the design both share, and who carries it. Heights in the positive's sense, mm. */
export interface LineMark {
  readonly chain: Chain;
  readonly carriedBy: 'reference' | 'subject' | 'both';
  /** Height of the crest over its sides: positive a ridge, negative a groove. */
  readonly onReferenceMm: number;
  readonly onSubjectMm: number;
  /** It runs through the legend's band and beyond with next to no bare ground, as no stroke does (crossingLines.ts). */
  readonly crosses?: boolean;
  /** Measured on both faces along its own way: the one has it, the other lacks it (matchedLines.ts). */
  readonly matched?: boolean;
}

export const lineMarkDefaults = {
  /** Least strength of a crest in the difference: mm, and standard deviations there. */
  leastMm: 0.03,
  leastSigma: 1.5,
  /** The line as a whole stands out by so many standard deviations. */
  standsOut: 2.2,
  /**
   * What the two faces' crests differ by, over the strength in the difference, which is taken against the nearer of two sides and averaged along the line: no
   * ridge or groove is stronger than its crest, nor much weaker. A step, a wall's foot or a form out of place is.
   */
  leastAccounted: 0.9,
  mostAccounted: 2.2,
  /** Along it the two differ by at least this share of that strength: ground between two forms that were lowered is no line, its sides are what differs. */
  leastStanding: 0.3,
  /** On the face that carries it a line stands over the higher of its two sides by at least this share of its height over both: between the broken edges of two faces one has a step, and no ridge. */
  leastOverHigher: 0.2,
  /** Least strength × length of a line that the subject carries, mm², sunk and raised … */
  leastSunk: 0.45,
  leastRaised: 0.6,
  /** … and where the reference shows no more than this share of it: sunk at least so deep, raised at least so long and clear. */
  clean: 0.15,
  leastSunkClean: 0.22,
  sunkMm: 0.06,
  leastRaisedClean: 0.3,
  raisedLengthMm: 3.6,
  raisedSigma: 2.4,
  /** The same of a line that the reference carries. */
  leastReference: 0.42,
  leastReferenceClean: 0.2,
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
};

/**
 * Lines of damage that one face has and the other lacks, from the difference: a crest there counts when one face shows it
 * and the other nearly nothing, since a worn stroke of the design shows on both.
 */
export function differenceLines(
  relief: WearRelief,
  loss: LossField,
  narrow = narrowForms(relief),
  options = lineMarkDefaults,
  chains: readonly DifferenceChain[] = differenceChains(relief, loss, options),
): LineMark[] {
  return chains.flatMap((each) => readLine(relief, each, narrow, options) ?? []);
}

/** A crest of the difference, raised (1) or sunk (−1), and the median σ of its cells, mm. */
export interface DifferenceChain {
  readonly chain: Chain;
  readonly sign: 1 | -1;
  readonly sigma: number;
}

/** All crests of the difference that stand out, whoever may have them. */
export function differenceChains(relief: WearRelief, loss: LossField, options = lineMarkDefaults): DifferenceChain[] {
  const grid = differenceGrid(relief);
  const field = lineField([grid]);
  const least = (i: number): number => Math.max(options.leastMm, options.leastSigma * loss.sigma[i]);
  return ([1, -1] as const).flatMap((sign) =>
    chainsIn(grid, field, sign, least, relief.sizeMm)
      .map((chain) => ({ chain, sign, sigma: median(chain.cells.map((i) => loss.sigma[i])) }))
      .filter(
        ({ chain, sigma }) => chain.lengthMm >= options.leastLengthMm && chain.strengthMm >= options.standsOut * sigma,
      ),
  );
}

export const chainsIn = (
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
  { chain, sign, sigma }: DifferenceChain,
  narrow: Narrow,
  options: typeof lineMarkDefaults,
): LineMark | null {
  const standingMm = sign * median(chain.cells.map((i) => relief.difference[i]));
  if (!(standingMm >= options.leastStanding * chain.strengthMm)) return null;
  const onReferenceMm = crestHeight(relief.reference, chain);
  const onSubjectMm = crestHeight(relief.subject, chain);
  const accounted = (sign * (onSubjectMm - onReferenceMm)) / chain.strengthMm;
  if (accounted < options.leastAccounted || accounted > options.mostAccounted) return null;
  const weight = chain.strengthMm * chain.lengthMm;
  const line = { chain, onReferenceMm, onSubjectMm };
  const carrier = sign * onSubjectMm > -sign * onReferenceMm ? relief.subject : relief.reference;
  const height = carrier === relief.subject ? onSubjectMm : onReferenceMm;
  if (overHigherSide(carrier, chain, Math.sign(height)) < options.leastOverHigher * Math.abs(height)) return null;
  if (sign * onSubjectMm > 0 && Math.abs(onReferenceMm) <= options.otherShare * Math.abs(onSubjectMm))
    return weight >= leastWeight(line, sign, sigma, options) ? { ...line, carriedBy: 'subject' } : null;
  if (!(sign * onReferenceMm < 0) || weight < leastOnReference(line, sigma, options)) return null;
  // A worn stroke leaves a rest of its own sign; a trace of the other sign beside it is none.
  const share = onSubjectMm / onReferenceMm;
  if (Math.abs(share) > options.otherShare) return null;
  // What the reference raises and the subject lacks may be a stroke rubbed away: only long lines, or lines on sound ground.
  if (sign === 1) return { ...line, carriedBy: 'reference' };
  const strong = weight > options.strong;
  if (share > (strong ? options.otherShareStrong : options.otherShareWorn)) return null;
  const long = chain.lengthMm > options.longShare * relief.sizeMm;
  return long || keptAround(relief, narrow, chain) > options.leastKept ? { ...line, carriedBy: 'reference' } : null;
}

/** What a line on the subject must weigh: less where the reference shows nothing of it. */
function leastWeight(
  { chain, onReferenceMm, onSubjectMm }: Omit<LineMark, 'carriedBy'>,
  sign: 1 | -1,
  sigma: number,
  options: typeof lineMarkDefaults,
): number {
  const clean = Math.abs(onReferenceMm) <= options.clean * Math.abs(onSubjectMm);
  if (sign === -1) return clean && -onSubjectMm >= options.sunkMm ? options.leastSunkClean : options.leastSunk;
  const clear = chain.lengthMm >= options.raisedLengthMm && chain.strengthMm >= options.raisedSigma * sigma;
  return clean && clear ? options.leastRaisedClean : options.leastRaised;
}

/** The same of a line on the reference. */
function leastOnReference(
  { chain, onReferenceMm, onSubjectMm }: Omit<LineMark, 'carriedBy'>,
  sigma: number,
  options: typeof lineMarkDefaults,
): number {
  const clean = Math.abs(onSubjectMm) <= options.clean * Math.abs(onReferenceMm);
  const clear = chain.lengthMm >= options.raisedLengthMm && chain.strengthMm >= options.raisedSigma * sigma;
  return clean && clear ? options.leastReferenceClean : options.leastReference;
}

/** Median height of the line's cells over the mean of both sides, mm. */
export const crestHeight = (grid: HeightGrid, chain: Chain): number => medianOver(grid, chain, (p, q) => (p + q) / 2);

/** … over the higher of the two, of a groove (`sign` −1) the other way about. */
const overHigherSide = (grid: HeightGrid, chain: Chain, sign: number): number =>
  sign * medianOver(grid, chain, sign > 0 ? Math.max : Math.min);

function medianOver(
  { z, mask, width, pitch }: HeightGrid,
  { cells, ux, uy }: Chain,
  ground: (oneSide: number, other: number) => number,
): number {
  const beside = Math.max(2, lineDefaults.besideMm / pitch);
  const step = Math.round(-ux * beside) * width + Math.round(-uy * beside);
  const heights = cells
    .filter((i) => mask[i] && mask[i + step] && mask[i - step])
    .map((i) => z[i] - ground(z[i + step], z[i - step]));
  return heights.length > 0 ? median(heights) : 0;
}

/**
 * What narrow forms about the line keep on the one face of their height on the other, Σ a b / Σ a² over the cells 1.2 to 4 mm aside; 1 where there is
 * hardly any form to tell by.
 */
export function keptAround(
  relief: WearRelief,
  narrow: Narrow,
  { cells, ux, uy }: Pick<Chain, 'ux' | 'uy'> & { readonly cells: Iterable<number> },
  on: 'subject' | 'reference' = 'subject',
): number {
  const { reference, subject, image } = relief;
  const [made, kept] = on === 'subject' ? [narrow.reference, narrow.subject] : [narrow.subject, narrow.reference];
  const { width, pitch } = reference;
  let [count, aa, ab] = [0, 0, 0];
  for (const i of cells)
    for (let aside = 1.2; aside <= 4; aside += Math.max(0.3, pitch))
      for (const way of [-1, 1]) {
        const j = i + Math.round((-ux * way * aside) / pitch) * width + Math.round((-uy * way * aside) / pitch);
        if (!(image[j] && reference.mask[j] && subject.mask[j])) continue;
        count++;
        if (made[j] < narrow.least) continue;
        aa += made[j] ** 2;
        ab += made[j] * kept[j];
      }
  return count > 0 && aa > 0.02 * count * narrow.least ** 2 ? ab / aa : 1;
}

/** Whether the reference lost narrow forms about what stands on the subject alone: then that may be a part of the design which it lost too. */
export const lostAround = (
  relief: WearRelief,
  mark: Parameters<typeof keptAround>[2],
  { leastKept } = lineMarkDefaults,
): boolean => keptAround(relief, narrowForms(relief), mark, 'reference') < leastKept;

/** Narrow forms of both faces, and which of them count. */
export interface Narrow {
  readonly reference: Float32Array;
  readonly subject: Float32Array;
  /** Height from which a narrow form counts, mm. */
  readonly least: number;
}

export function narrowForms({ reference, narrow, inside }: WearRelief): Narrow {
  const least = quantile(
    sampled(narrow.reference, (i) => inside[i] === 1 && reference.mask[i] === 1),
    0.9,
  );
  return { ...narrow, least };
}
