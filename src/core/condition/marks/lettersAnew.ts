import { componentsOf, median, quantile } from '../../geometry/index.ts';
import type { LossField } from '../relief/loss.ts';
import type { WearRelief } from '../relief/relief.ts';
import type { RecutLetter } from './letters.ts';
import { discOf, type LetterWindow, placesAlong, windowAt } from './letterWindows.ts';
import { shareOverLevel } from './overLevel.ts';

export const anewDefaults = {
  /** A window's radius, in widths of the legend's band (0.5 mm at least), and the steps between windows, in radii. */
  radius: 0.45,
  leastRadiusMm: 0.5,
  step: 0.4,
  /** Of a window this share was scanned on both faces. */
  scanned: 0.6,
  leastWindows: 30,
  /** A window holds strokes where it holds this share of what 0.7 of all windows hold at most (mean square of the height). */
  usualOver: 0.7,
  leastRelief: 0.3,
  /** Neighbours lie between so many radii away; so many are needed. */
  nearest: 2,
  farthest: 8,
  leastNeighbours: 6,
  /** The letter gains this share of its own height more than its neighbours do, and by so many of their spreads (0.03 at least) … */
  leastGain: 0.2,
  mostGain: 0.75,
  leastSpreads: 3.2,
  leastSpread: 0.03,
  /** … while so few of them gain half as much. */
  mostNeighbours: 0.1,
  /** It stands higher than they do on its own face, logarithm over their quantile, and by this share of what sets it off: the other face may not simply lack it. */
  leastOver: 0.15,
  ownShare: 0.4,
  neighboursOver: 0.6,
  /** It is the same letter on both: their heights correlate by this at least. */
  leastAlike: 0.65,
  /** Its cells stand out by so many standard deviations, their median by so many, within so many radii. */
  sigmas: 2,
  medianSigmas: 3.5,
  within: 2.4,
  /** A letter is gone over as a whole, so that they reach over so many radii and fill so much of a window, and is strokes, so that they fill no more. */
  leastLong: 2.1,
  leastFull: 0.1,
  mostFull: 0.9,
  /** It tells of the matrix's state where so few windows of the whole legend, of so many at least (the room of eight letters), are as tall on its own face or gain as much, its neighbours usually gain or lack no more than so much (of a legend that wore the letter that wore least stands out), and a level accounts for its gain at most so much better than a share does (overLevel.ts, within so many radii). */
  mostEqualled: 0.02,
  leastElsewhere: 160,
  mostUsual: 0.35,
  mostOverLevel: 1.5,
  wholeLetter: 1.3,
  /** Of the legend within two widths of the band beside it this share differs as much, at most: wear and bad filling do not keep to one letter. */
  mostBeside: 0.25,
};

type Options = typeof anewDefaults;

/** A window whose gain is its own, and the gain that is usual about it. */
interface Candidate {
  readonly window: LetterWindow;
  readonly usual: number;
}

/**
 * Letters cut again before one of the two was made and not before the other. Round windows of about a letter's size are laid along the band;
 * in each it is asked what share of its height one face gains over the other. A letter cut again gains more than the letters beside it do, because
 * it is taller than these on the face that has it, not because it is lower on the other: what is not filled, clogged or rubbed is lower.
 * `taken`: cells left out.
 */
export function lettersAnew(
  relief: WearRelief,
  loss: LossField,
  band: Uint8Array,
  taken: Uint8Array,
  options: Options = anewDefaults,
): RecutLetter[] {
  const found: RecutLetter[] = [];
  const radius = radiusOf(relief, band, options);
  if (radius === 0) return found;
  const { width } = relief.reference;
  const places = placesAlong(relief, loss, band, radius, options);
  for (const carriedBy of ['subject', 'reference'] as const) {
    const windows = places.flatMap((place) => windowAt(place, relief, loss, carriedBy));
    if (windows.length < options.leastWindows) continue;
    const used = taken.slice();
    for (const { window, usual } of candidatesOf(windows, radius, options)) {
      const own = carriedBy === 'subject' ? loss.subjectHeight : loss.height;
      const sign = carriedBy === 'subject' ? 1 : -1;
      const over = relief.difference.map((d, i) => sign * d - usual * Math.max(0, own[i]));
      const middle = window.place.row * width + window.place.column;
      const cells = cellsAbout(relief, loss, over, middle, radius, used, options);
      if (!cells) continue;
      for (const i of cells) used[i] = 1;
      const whole = discOf(options.wholeLetter * radius, width).map((away) => middle + away);
      const unequalled =
        Math.abs(usual) <= options.mostUsual &&
        isUnequalled(window, windows, radius, options) &&
        shareOverLevel(relief, loss, whole, carriedBy, window.own) <= options.mostOverLevel;
      found.push({ cells, carriedBy, gainMm: (window.gain - usual) * window.own, ...(unequalled && { unequalled }) });
    }
  }
  return found;
}

/** Whether hardly a window elsewhere in the legend is as tall on its own face, and hardly one gains as much. */
function isUnequalled(
  { place, own, gain }: LetterWindow,
  windows: readonly LetterWindow[],
  radius: number,
  { nearest, mostEqualled, leastElsewhere }: Options,
): boolean {
  const elsewhere = windows.filter(
    (each) => Math.hypot(each.place.column - place.column, each.place.row - place.row) > nearest * radius,
  );
  const isRare = (test: (each: LetterWindow) => boolean): boolean =>
    elsewhere.filter(test).length <= mostEqualled * elsewhere.length;
  return elsewhere.length >= leastElsewhere && isRare((each) => each.own >= own) && isRare((each) => each.gain >= gain);
}

/** Cells; 0 where there is no legend. */
function radiusOf({ reference, fromEdge }: WearRelief, band: Uint8Array, options: Options): number {
  const inBand = fromEdge.filter((_, i) => band[i] === 1);
  if (inBand.length === 0) return 0;
  const wide = quantile(inBand, 0.95) - quantile(inBand, 0.05);
  return Math.max(options.leastRadiusMm / reference.pitch, options.radius * wide);
}

/** Windows that gain more than their neighbours, the greatest gain first. */
function candidatesOf(windows: readonly LetterWindow[], radius: number, options: Options): Candidate[] {
  const least =
    options.leastRelief *
    quantile(
      Float32Array.from(windows, (each) => each.relief),
      options.usualOver,
    );
  const strokes = windows.filter((each) => each.relief >= least);
  const near = neighboursAmong(strokes, options.nearest * radius, options.farthest * radius);
  const gains = Float64Array.from(strokes, ({ gain }) => gain);
  return strokes
    .flatMap((window, k) =>
      window.place.alike < options.leastAlike ? [] : standsOut(k, near(k), strokes, gains, options),
    )
    .sort((p, q) => q.window.gain - q.usual - p.window.gain + p.usual);
}

/**
 * Of a window's number the numbers of those that lie between so many cells away, good until the next is asked. Millions of pairs are asked: of
 * columns of numbers, without a root.
 */
function neighboursAmong(
  windows: readonly LetterWindow[],
  nearest: number,
  farthest: number,
): (k: number) => Int32Array {
  const columns = Int32Array.from(windows, ({ place }) => place.column);
  const rows = Int32Array.from(windows, ({ place }) => place.row);
  const found = new Int32Array(windows.length);
  return (k) => found.subarray(0, between(columns, rows, k, nearest * nearest, farthest * farthest, found));
}

/** Writes the places whose squared distance from place k lies between the two, and tells their number. */
function between(x: Int32Array, y: Int32Array, k: number, least: number, most: number, found: Int32Array): number {
  let count = 0;
  for (let n = 0; n < x.length; n++) {
    const across = x[n] - x[k];
    const down = y[n] - y[k];
    const away = across * across + down * down;
    if (away > least && away < most) found[count++] = n;
  }
  return count;
}

/** The window with what is usual about it, or nothing where it is as its neighbours are. */
function standsOut(
  k: number,
  near: Int32Array,
  windows: readonly LetterWindow[],
  all: Float64Array,
  options: Options,
): Candidate[] {
  if (near.length < options.leastNeighbours || !halfGainLess(all, k, near, options.leastGain)) return [];
  const gains = takenFrom(all, near);
  const usual = median(gains);
  const gain = all[k] - usual;
  if (gain < options.leastGain || gain > options.mostGain) return [];
  const spread = 1.4826 * median(gains.map((each) => Math.abs(each - usual)));
  if (gain < options.leastSpreads * Math.hypot(spread, options.leastSpread)) return [];
  if (gains.filter((each) => each - usual > gain / 2).length > options.mostNeighbours * gains.length) return [];
  const window = windows[k];
  const beside = Array.from(near, (each) => windows[each]);
  const own = over(window, beside, 'own', options);
  const other = over(window, beside, 'other', options);
  const isTaller = own >= Math.max(options.leastOver, options.ownShare * (own - other));
  return isTaller ? [{ window, usual }] : [];
}

/** Whether half of the neighbours gain less by so much: without that their median does not either, and most windows need no median. */
function halfGainLess(gains: Float64Array, k: number, near: Int32Array, by: number): boolean {
  let less = 0;
  for (let n = 0; n < near.length; n++) if (gains[k] - gains[near[n]] >= by) less++;
  return 2 * less >= near.length;
}

function takenFrom(values: Float64Array, places: Int32Array): Float64Array {
  const taken = new Float64Array(places.length);
  for (let n = 0; n < places.length; n++) taken[n] = values[places[n]];
  return taken;
}

/** Logarithm of a window's height over its neighbours'. */
function over(
  window: LetterWindow,
  near: readonly LetterWindow[],
  key: 'own' | 'other',
  { neighboursOver }: Options,
): number {
  const heights = Float32Array.from(near, (each) => each[key]);
  return Math.log(Math.max(leastMm, window[key]) / Math.max(leastMm, quantile(heights, neighboursOver)));
}

/** Lower heights tell nothing, mm. */
const leastMm = 0.005;

/** The cells of a letter's gain about a window's middle, `over` what is usual there, mm; null where they are no letter's. */
function cellsAbout(
  relief: WearRelief,
  loss: LossField,
  over: Float32Array,
  middle: number,
  radius: number,
  taken: Uint8Array,
  options: Options,
): Int32Array | null {
  const { reference, difference: d } = relief;
  const { width } = reference;
  const isOver = (i: number): boolean => Math.abs(over[i]) > options.sigmas * loss.sigma[i];
  const near = discOf(options.within * radius, width)
    .map((away) => middle + away)
    .filter((i) => i >= 0 && i < d.length && !Number.isNaN(d[i]) && relief.inside[i]);
  const hot = near.filter((i) => over[i] > 0 && isOver(i));
  const inner = new Set(discOf(radius, width).map((away) => middle + away));
  const cells = joined(hot, width, d.length)
    .filter(
      (part) =>
        part.filter((i) => inner.has(i)).length > 0.5 * part.length ||
        part.some((i) => inner.has(i) && part.length > 4),
    )
    .flat();
  if (cells.length < 5 || cells.filter((i) => taken[i]).length > 0.25 * cells.length) return null;
  if (median(cells.map((i) => over[i] / loss.sigma[i])) < options.medianSigmas) return null;
  if (longSideOf(cells, width) < options.leastLong * radius) return null;
  const full = cells.length / inner.size;
  if (full < options.leastFull || full > options.mostFull) return null;
  const own = new Set(cells);
  const beside = near.filter((i) => !own.has(i) && !inner.has(i));
  if (beside.filter(isOver).length > options.mostBeside * beside.length) return null;
  return Int32Array.from(cells);
}

/** Diagonal of the cells' box, cells. */
function longSideOf(cells: readonly number[], width: number): number {
  const columns = cells.map((i) => i % width);
  const rows = cells.map((i) => Math.floor(i / width));
  return Math.hypot(Math.max(...columns) - Math.min(...columns) + 1, Math.max(...rows) - Math.min(...rows) + 1);
}

/** Cells that hang together, or of which each lies two cells from the next. */
function joined(cells: readonly number[], width: number, count: number): number[][] {
  const grown = new Uint8Array(count);
  const disc = discOf(1, width);
  for (const i of cells) for (const away of disc) if (i + away >= 0 && i + away < count) grown[i + away] = 1;
  const chosen = new Set(cells);
  return componentsOf(grown, width).map((part) => Array.from(part).filter((i) => chosen.has(i)));
}
