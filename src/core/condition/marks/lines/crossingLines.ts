import { type HeightGrid, quantile, withHeights } from '../../../geometry/index.ts';
import type { LossField } from '../../relief/loss.ts';
import type { WearRelief } from '../../relief/relief.ts';
import { type BandPlaces, bandChance } from './bandChance.ts';
import { beyondOverWithin } from './beyondBand.ts';
import { type Chain, chainOf, crestCells } from './chains.ts';
import { houghLines } from './houghLines.ts';
import { lineDefaults, lineField } from './lineField.ts';
import { crestHeight, type LineMark } from './lines.ts';
import { type WalkedLine, walkRefitted } from './walkLine.ts';

export const crossingDefaults = {
  /** Crests are looked for over this length and against sides at this distance, mm: short and near, so that thin cracks show. */
  field: { ...lineDefaults, lengthMm: 1.4, besideMm: 0.4 },
  leastMm: 0.03,
  /** Least crests on one straight line, and least length, as shares of the size. */
  leastVotes: 0.12,
  leastLength: 0.15,
  /** Most of it that may lie bare, the same of one that crosses the band on both sides, and how far a quarter of its crest may sink. */
  bare: 0.05,
  bareFromEdgeToEdge: 0.06,
  edgeToEdge: 1.6,
  sinks: 0.42,
  /** It crosses this much of the legend's band, in widths of the band from its outer edge … */
  across: 0.7,
  /** … or, of a long and deep one, this much. */
  acrossDeep: 0.4,
  deepMm: 0.2,
  long: 0.33,
  /** How far in it comes, in widths of the band: a frame runs along the band's inner edge, at 1. A very deep one need not come so far. */
  beyond: 1.55,
  beyondDeep: 1.35,
  /** A line that one face alone shows, and only over its length, runs from here or farther out to here or farther in. */
  fromWithin: 0.5,
  toBeyond: 1.5,
  veryDeepMm: 0.3,
  /** Where the two differ by so many standard deviations and mm, one of them is broken or covered, and bare ground there says nothing. */
  sigmas: 4,
  differMm: 0.1,
  /** A second line as long and as high within these shares, parallel within so many degrees and at least so far off, mm: the design's. */
  twinLength: 0.3,
  twinCrest: 0.25,
  twinDeg: 3,
  twinApartMm: 2,
  /** Elsewhere in the band the design alone is crossed as well in at most this share of places (bandChance.ts): of the forty asked, in none. */
  byChance: 0.02,
  /** A band whose outer edge lies farther in than this share of the size is no legend's: the motif was taken for one, and its lines run through it. */
  farIn: 0.15,
  /** One that both carry stands beyond the band at most so many times as high as within it (beyondBand.ts). */
  mostBeyond: 2,
  /** A line of the difference on the same way is what remains of this one when shorter than this share of it; a longer one says that not both carry it. */
  aboutAsLong: 0.5,
  /** The other face has no surface along this share of it; or shows at most this share of its crest: then it does not carry it. From this share on it does. */
  mostlyUnseen: 0.6,
  otherLacks: 0.3,
  otherHas: 0.5,
};

type Options = typeof crossingDefaults;

/**
 * Lines that run through the design as no letter, frame or border does, found on the faces themselves and not from their
 * difference: those that both carry, and those on one face where the other is missing. They cross the legend's band and go on
 * beyond, stand on bare ground all along and stop only where the design stands higher. `found`: lines of the difference, which are given
 * back in place of these where they are about as long. `band`: cells of the legend. `crests`: all crests of the difference, read as a line or not.
 */
export function crossingLines(
  relief: WearRelief,
  loss: LossField,
  found: readonly LineMark[],
  band: Uint8Array,
  options: Options = crossingDefaults,
  crests: readonly Pick<LineMark, 'chain'>[] = [],
): LineMark[] {
  const { reference, subject, inside } = relief;
  const places = bandPlaces(relief, band, options);
  if (!places) return [];
  const acrossBand = bandCrossing(places, band);
  const cells = (use: (i: number) => boolean): Uint8Array => inside.map((value, i) => (value && use(i) ? 1 : 0));
  const heights = { reference: loss.height, subject: loss.subjectHeight };
  const lines: LineMark[] = [];
  // Strokes of letters end at the band's outer edge, marks do not.
  const standsOutside = ({ cells }: WalkedLine): boolean => cells.some((i) => places.placeOf(i) < 0);
  const differs = (mark: LineMark): boolean => crests.some((each) => isDifferenceOn(reference, each, mark, options));
  const add = (walked: WalkedLine, carriedBy: LineMark['carriedBy']): void => {
    const mark = markOf(relief, walked, carriedBy);
    const known = found.filter(({ chain }) => chain.lengthMm > options.aboutAsLong * mark.chain.lengthMm);
    if (lines.some((line) => liesOn(reference, line, mark))) return;
    const same = known.find((line) => liesOn(reference, line, mark));
    if (same) lines.push({ ...same, crosses: true });
    else if (carriedBy !== 'both' || (standsOutside(walked) && !differs(mark))) lines.push(mark);
  };
  const both = cells((i) => reference.mask[i] === 1 && subject.mask[i] === 1);
  const sound = (i: number): boolean =>
    Math.abs(relief.difference[i]) < Math.max(options.differMm, options.sigmas * loss.sigma[i]);
  const pair = [withHeights(reference, reference.z, both), withHeights(subject, subject.z, both)];
  for (const line of linesThrough(
    pair,
    [heights.reference, heights.subject],
    sound,
    relief.sizeMm,
    acrossBand,
    options,
  ))
    if (bandChance(pair, [heights.reference, heights.subject], line, places, sound) <= options.byChance)
      add(line, 'both');
  for (const own of ['reference', 'subject'] as const) {
    const here = cells((i) => relief[own].mask[i] === 1);
    const grid = withHeights(relief[own], relief[own].z, here);
    for (const line of linesThrough([grid], [heights[own]], () => true, relief.sizeMm, acrossBand, options)) {
      const carriedBy = carrierOf(relief, line, own, options);
      if (carriedBy && bandChance([grid], [heights[own]], line, places) <= options.byChance) add(line, carriedBy);
    }
  }
  const isOneLine = (mark: LineMark): boolean =>
    mark.carriedBy !== 'both' || beyondOverWithin(relief, mark, places.placeOf) <= options.mostBeyond;
  return lines.filter(isOneLine);
}

/** Who carries a line that was found on one face alone; null where the other shows too much and too little of it to say. */
function carrierOf(
  relief: WearRelief,
  { cells, crestMm }: WalkedLine,
  own: 'reference' | 'subject',
  { mostlyUnseen, otherLacks, otherHas }: Options,
): LineMark['carriedBy'] | null {
  const other = relief[own === 'reference' ? 'subject' : 'reference'];
  const seen = cells.filter((i) => other.mask[i]);
  if (seen.length < (1 - mostlyUnseen) * cells.length) return own;
  const share =
    crestHeight(
      other,
      chainOf(other, seen, () => crestMm),
    ) /
    crestHeight(
      relief[own],
      chainOf(other, seen, () => crestMm),
    );
  if (share >= otherHas) return 'both';
  return share <= otherLacks ? own : null;
}

function linesThrough(
  grids: readonly HeightGrid[],
  heights: readonly Float32Array[],
  sound: (cell: number) => boolean,
  sizeMm: number,
  crossing: (line: WalkedLine) => Crossing,
  options: Options,
): WalkedLine[] {
  const [grid] = grids;
  const { ridge, ridgeAlong } = lineField(grids, true, options.field);
  const { directions } = options.field;
  const crests = crestCells(grid, ridge, ridgeAlong, directions, () => options.leastMm);
  const least = Math.round((options.leastVotes * sizeMm) / grid.pitch);
  const walked = houghLines(grid, crests, (i) => (ridgeAlong[i] * Math.PI) / directions, least)
    .map((line) => walkRefitted(grids, heights, line, sound))
    .filter((line): line is WalkedLine => line !== null);
  const chains = new Map(walked.map((line) => [line, chainOf(grid, line.cells, () => line.crestMm)]));
  const repeated = (line: WalkedLine): boolean =>
    walked.some((other) => areTwins(chains.get(line) as Chain, chains.get(other) as Chain, options));
  return walked.filter((line) => runsThrough(line, crossing(line), sizeMm, options) && !repeated(line));
}

/** A design repeats itself, pillar beside pillar; cuts hardly do. */
function areTwins(a: Chain, b: Chain, options: Options): boolean {
  const alike = (x: number, y: number, share: number): boolean => Math.abs(x - y) <= share * Math.max(x, y);
  const parallel = Math.abs(a.ux * b.ux + a.uy * b.uy) > Math.cos((options.twinDeg * Math.PI) / 180);
  const apart = Math.abs((b.y - a.y) * a.ux - (b.x - a.x) * a.uy);
  return (
    parallel &&
    apart >= options.twinApartMm &&
    alike(a.lengthMm, b.lengthMm, options.twinLength) &&
    alike(a.strengthMm, b.strengthMm, options.twinCrest)
  );
}

function runsThrough(line: WalkedLine, { across, beyond }: Crossing, sizeMm: number, options: Options): boolean {
  const { lengthMm, absentMm, crestMm, sinks } = line;
  const bare = across > options.edgeToEdge ? options.bareFromEdgeToEdge : options.bare;
  if (lengthMm < options.leastLength * sizeMm || absentMm > bare * lengthMm) return false;
  if (sinks > options.sinks) return false;
  if (beyond < (crestMm > options.veryDeepMm ? options.beyondDeep : options.beyond)) return false;
  const longAndDeep = lengthMm > options.long * sizeMm && crestMm > options.deepMm;
  return across >= (longAndDeep ? options.acrossDeep : options.across);
}

/** What a line crosses, in widths of the legend's band from its outer edge. */
interface Crossing {
  /** Of the band's own cells, counted where the line stands; 2 at most, from edge to edge of the face. */
  readonly across: number;
  /** How far in it comes. */
  readonly beyond: number;
}

/** Cells over which the way inward is taken: a step of one would be all rounding. */
const span = 4;

/** Null where there is hardly any band, or none along the edge. */
function bandPlaces(
  { fromEdge, reference, sizeMm }: WearRelief,
  band: Uint8Array,
  { farIn }: Options,
): BandPlaces | null {
  const inBand = fromEdge.filter((_, i) => band[i] === 1);
  if (inBand.length === 0) return null;
  const outer = quantile(inBand, 0.05);
  const width = quantile(inBand, 0.95) - outer;
  if (!(width > 2) || outer * reference.pitch > farIn * sizeMm) return null;
  return { placeOf: (i) => (fromEdge[i] - outer) / width, fromEdge, grid: reference, widthCells: width };
}

function bandCrossing({ placeOf }: BandPlaces, band: Uint8Array): (line: WalkedLine) => Crossing {
  return ({ way, cells }) => {
    const stands = new Set(cells);
    let [across, beyond] = [0, 0];
    way.forEach((i, k) => {
      const at = placeOf(i);
      beyond = Math.max(beyond, at);
      if (!stands.has(i) || !band[i] || at <= 0 || at >= 1) return;
      const [a, b] = [Math.max(0, k - span), Math.min(way.length - 1, k + span)];
      across += Math.abs(placeOf(way[b]) - placeOf(way[a])) / (b - a);
    });
    return { across, beyond };
  };
}

/** Whether a crest of the difference on a line's way says that not both carry it: about as long, and of more than half its height. */
function isDifferenceOn(
  grid: HeightGrid,
  { chain }: Pick<LineMark, 'chain'>,
  mark: LineMark,
  { aboutAsLong, otherHas }: Options,
): boolean {
  const crestMm = Math.max(mark.onReferenceMm, mark.onSubjectMm);
  return (
    chain.lengthMm > aboutAsLong * mark.chain.lengthMm &&
    chain.strengthMm > otherHas * crestMm &&
    liesOn(grid, { chain }, mark)
  );
}

/**
 * Whether a line of the difference runs from the band's middle or farther out to half a band's width beyond its inner edge. Strokes of
 * letters end at that edge, and so do the motif's; no twin and no bare ground need be asked where the other face lacks it.
 */
export function runningAcross(
  relief: WearRelief,
  band: Uint8Array,
  options: Options = crossingDefaults,
): (chain: Pick<Chain, 'cells'>) => boolean {
  const places = bandPlaces(relief, band, options);
  if (!places) return () => false;
  return ({ cells }) => {
    const at = cells.map(places.placeOf);
    return Math.min(...at) <= options.fromWithin && Math.max(...at) >= options.toBeyond;
  };
}

function markOf(relief: WearRelief, { cells, crestMm }: WalkedLine, carriedBy: LineMark['carriedBy']): LineMark {
  const chain = chainOf(relief.reference, cells, () => crestMm);
  return {
    chain,
    carriedBy,
    crosses: true,
    onReferenceMm: carriedBy === 'subject' ? 0 : crestHeight(relief.reference, chain),
    onSubjectMm: carriedBy === 'reference' ? 0 : crestHeight(relief.subject, chain),
  };
}

/** Whether a third of the shorter line's cells lie within two cells of the other. */
export function liesOn({ width }: HeightGrid, one: Pick<LineMark, 'chain'>, other: Pick<LineMark, 'chain'>): boolean {
  const [a, b] = [one.chain.cells, other.chain.cells];
  const [long, short] = a.length > b.length ? [a, b] : [b, a];
  const near = new Set<number>();
  for (const i of long) for (let dy = -2; dy <= 2; dy++) for (let dx = -2; dx <= 2; dx++) near.add(i + dy * width + dx);
  return short.filter((i) => near.has(i)).length > 0.33 * short.length;
}
