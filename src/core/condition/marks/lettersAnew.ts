import { componentsOf, median, quantile } from '../../geometry/index.ts';
import type { LossField } from '../relief/loss.ts';
import type { WearRelief } from '../relief/relief.ts';
import type { RecutLetter } from './letters.ts';

export const anewDefaults = {
  /** A window's radius, in widths of the legend's band (0.5 mm at least), and the steps between windows, in radii. */
  radius: 0.45,
  leastRadiusMm: 0.5,
  step: 0.45,
  /** Heights are the quantile of a window of which this share was scanned on both faces; lower ones than this tell nothing, mm. */
  top: 0.9,
  scanned: 0.6,
  leastHeightMm: 0.02,
  leastWindows: 30,
  /** All logarithms. The two faces' heights keep one ratio along the legend within this; otherwise filling or wear changes it from letter to letter. */
  mostSpread: 0.2,
  /** The letter's ratio lies off the usual one by this much, and by so many of those spreads … */
  leastOff: 0.25,
  leastSpreads: 3,
  /** What is usual there: this quantile of all windows, since many lie between two letters. */
  usualOver: 0.85,
  /** … and its own height lies over what is usual on the face that has it by this share of that: the other face may not simply lack it. */
  ownShare: 0.4,
  /** Its cells stand out by so many standard deviations, their median by so many, within so many radii. */
  sigmas: 2,
  medianSigmas: 3.5,
  within: 2.4,
  /** A letter is gone over as a whole, so that they reach over so many radii, and is strokes, so that they fill no more of a window. */
  leastLong: 1.5,
  mostFull: 0.9,
  /** Of the legend within two widths of the band beside it this share differs as much, at most: wear and bad filling do not keep to one letter. */
  mostBeside: 0.25,
};

type Options = typeof anewDefaults;

/** Heights at the tops of what stands in a round window of the legend, mm. */
interface Window {
  readonly cell: number;
  readonly reference: number;
  readonly subject: number;
}

/**
 * Letters cut again before one of the two was made and not before the other. Round windows of about a letter's size are laid along the band;
 * in each the tops' height over the ground is taken on both faces. A letter cut again is a place where the ratio of the two heights lies far off the usual one, which
 * the rest of the legend keeps, because one face's letter is taller than that face's letters are, not because the other's is
 * lower: what is not filled, clogged or rubbed is lower. `taken`: cells left out.
 */
export function lettersAnew(
  relief: WearRelief,
  loss: LossField,
  band: Uint8Array,
  taken: Uint8Array,
  options: Options = anewDefaults,
): RecutLetter[] {
  const heights = { reference: loss.height, subject: loss.subjectHeight };
  const { windows, radius } = windowsAlong(relief, heights, band, options);
  if (windows.length < options.leastWindows) return [];
  const found: RecutLetter[] = [];
  for (const carriedBy of ['subject', 'reference'] as const) {
    const other = carriedBy === 'subject' ? 'reference' : 'subject';
    const own = windows.map((each) => Math.log(each[carriedBy]));
    const usual = quantile(Float32Array.from(own), options.usualOver);
    const ratio = offUsual(windows.map((each) => Math.log(each[carriedBy] / each[other])));
    if (ratio.spread > options.mostSpread) continue;
    const least = Math.max(options.leastOff, options.leastSpreads * ratio.spread);
    const tall = (k: number): boolean => ratio.off[k] >= least && own[k] - usual >= options.ownShare * ratio.off[k];
    const order = windows
      .map((_, k) => k)
      .filter(tall)
      .sort((p, q) => ratio.off[q] - ratio.off[p]);
    const used = taken.slice();
    for (const k of order) {
      const cells = cellsAbout(relief, loss, windows[k].cell, radius, carriedBy, used, options);
      if (!cells) continue;
      for (const i of cells) used[i] = 1;
      const gainMm = windows[k][carriedBy] * (1 - Math.exp(-ratio.off[k]));
      found.push({ cells, carriedBy, gainMm });
    }
  }
  return found;
}

/** Each value less the median of all, and 1.4826 median absolute deviations. */
function offUsual(values: readonly number[]): { off: number[]; spread: number } {
  const usual = median(values);
  const off = values.map((value) => value - usual);
  return { off, spread: 1.4826 * median(off.map(Math.abs)) };
}

function windowsAlong(
  { reference, subject, inside, fromEdge }: WearRelief,
  heights: { readonly reference: Float32Array; readonly subject: Float32Array },
  band: Uint8Array,
  options: Options,
): { windows: Window[]; radius: number } {
  const { width, height, pitch } = reference;
  const inBand = fromEdge.filter((_, i) => band[i] === 1);
  if (inBand.length === 0) return { windows: [], radius: 0 };
  const wide = quantile(inBand, 0.95) - quantile(inBand, 0.05);
  const radius = Math.max(options.leastRadiusMm / pitch, options.radius * wide);
  const disc = discOf(radius, width);
  const step = Math.max(1, Math.round(options.step * radius));
  const windows: Window[] = [];
  const reach = Math.ceil(radius);
  for (let row = reach; row < height - reach; row += step)
    for (let col = reach; col < width - reach; col += step) {
      const cell = row * width + col;
      if (!band[cell]) continue;
      const seen = disc.map((away) => cell + away).filter((i) => inside[i] && reference.mask[i] && subject.mask[i]);
      if (seen.length < options.scanned * disc.length) continue;
      const top = (of: Float32Array): number =>
        quantile(
          Float32Array.from(seen, (i) => of[i]),
          options.top,
        );
      const [one, two] = [top(heights.reference), top(heights.subject)];
      if (Math.min(one, two) > options.leastHeightMm) windows.push({ cell, reference: one, subject: two });
    }
  return { windows, radius };
}

function discOf(radius: number, width: number): number[] {
  const reach = Math.ceil(radius);
  const out: number[] = [];
  for (let dy = -reach; dy <= reach; dy++)
    for (let dx = -reach; dx <= reach; dx++) if (dx * dx + dy * dy <= radius * radius) out.push(dy * width + dx);
  return out;
}

/** The cells of a letter's gain about a window's middle; null where they are no letter's. */
function cellsAbout(
  relief: WearRelief,
  loss: LossField,
  middle: number,
  radius: number,
  carriedBy: RecutLetter['carriedBy'],
  taken: Uint8Array,
  options: Options,
): Int32Array | null {
  const { reference, difference: d } = relief;
  const { width } = reference;
  const sign = carriedBy === 'subject' ? 1 : -1;
  const standsOut = (i: number): boolean => Math.abs(d[i]) > options.sigmas * loss.sigma[i];
  const near = discOf(options.within * radius, width)
    .map((away) => middle + away)
    .filter((i) => i >= 0 && i < d.length && !Number.isNaN(d[i]) && relief.inside[i]);
  const hot = near.filter((i) => sign * d[i] > 0 && standsOut(i));
  const inner = new Set(discOf(radius, width).map((away) => middle + away));
  const cells = joined(hot, width, d.length)
    .filter(
      (part) =>
        part.filter((i) => inner.has(i)).length > 0.5 * part.length ||
        part.some((i) => inner.has(i) && part.length > 4),
    )
    .flat();
  if (cells.length < 5 || cells.filter((i) => taken[i]).length > 0.25 * cells.length) return null;
  if (median(cells.map((i) => Math.abs(d[i]) / loss.sigma[i])) < options.medianSigmas) return null;
  if (longSideOf(cells, width) < options.leastLong * radius || cells.length > options.mostFull * inner.size)
    return null;
  const own = new Set(cells);
  const beside = near.filter((i) => !own.has(i) && !inner.has(i));
  if (beside.filter(standsOut).length > options.mostBeside * beside.length) return null;
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
