import { median, quantile } from '../../../geometry/index.ts';
import type { Chain } from './chains.ts';
import { type LineCourse, type LineSurface, placeOnLine, slopeAt } from './lineCourse.ts';

/** Sections across a line at even steps, straightened: 0 is the middle of the line. Heights with the line's sign turned upward, mm. */
export interface LineProfiles {
  /** Distances aside, mm, even and symmetric about 0. */
  readonly aside: Float64Array;
  /** Places along, mm. */
  readonly along: Float64Array;
  /** One row a step over the straight between its sides; NaN without data. */
  readonly rows: readonly Float32Array[];
  /** Height of the design under the line at each step, mm: the other face's, or the sides' where it is not known. */
  readonly ground: Float64Array;
  /** Mean over the middle of each row, mm. */
  readonly crest: Float64Array;
  /** Crest that nine tenths of the steps do not exceed, mm. */
  readonly tallMm: number;
  /** True when the design under the line is known from the other face. */
  readonly overDesign: boolean;
}

export const profileDefaults = {
  /** Steps along, at most. */
  mostSteps: 300,
  /** Half of the breadth looked at: this, or so many widths and so much more. */
  leastReachMm: 1.2,
  widths: 1.6,
  andMm: 0.5,
  /** Where the design under a line is not known: what stands so many times as high as the line usually does is a form that it crosses. */
  crossed: 1.6,
  /** Outer share of either half that its side's height is taken from. */
  sides: 0.3,
};

/** Empties the rows at which the line runs through a higher form: they show that form's section. */
function leaveOutCrossed(rows: readonly Float32Array[], crest: Float64Array, crossed: number): void {
  const usual = median(crest.filter((value) => value > 0));
  crest.forEach((value, k) => {
    if (!(value > crossed * usual)) return;
    rows[k].fill(Number.NaN);
    crest[k] = Number.NaN;
  });
}

/** Sections across the course. `widthMm`: about how wide the line is at half its height. */
export function lineProfiles(
  surface: LineSurface,
  chain: Chain,
  course: LineCourse,
  sign: 1 | -1,
  widthMm: number,
  options = profileDefaults,
): LineProfiles {
  const { nodes, spacingMm } = course;
  const length = (nodes.length - 1) * spacingMm;
  const steps = Math.max(4, Math.min(options.mostSteps, Math.round(length / surface.pitchMm)));
  const reachMm = Math.max(options.leastReachMm, 6 * surface.pitchMm, options.widths * widthMm + options.andMm);
  const half = Math.ceil(reachMm / (surface.pitchMm / 2));
  const aside = Float64Array.from({ length: 2 * half + 1 }, (_, k) => ((k - half) * reachMm) / half);
  const places = Array.from({ length: steps + 1 }, (_, k) => placeAt(course, (k * length) / steps));
  const raw = places.map((place) => rowAt(surface, chain, place, aside));
  const known = raw.filter(({ design }) => !Number.isNaN(design[half])).length;
  const overDesign = known > 0.6 * raw.length;
  const middle = Math.max(0.5 * surface.pitchMm, widthMm / 5);
  const rows: Float32Array[] = [];
  const ground = new Float64Array(raw.length);
  const crest = new Float64Array(raw.length);
  raw.forEach(({ own, design }, k) => {
    const row = own.map((value, t) => sign * (overDesign ? value - design[t] : value));
    const sides = sidesOf(row, half, options.sides);
    rows.push(row.map((value, t) => value - (sides.mean + sides.slope * (t - half))));
    crest[k] = meanWithin(rows[k], aside, middle);
    ground[k] = overDesign ? meanWithin(design, aside, middle) : sign * sides.mean;
  });
  if (!overDesign) leaveOutCrossed(rows, crest, options.crossed);
  const tallMm =
    quantile(
      crest.filter((value) => !Number.isNaN(value)),
      0.9,
    ) || 0;
  return { aside, along: Float64Array.from(places, ({ along }) => along), rows, ground, crest, tallMm, overDesign };
}

interface Place {
  readonly along: number;
  readonly aside: number;
  readonly slope: number;
}

function placeAt({ nodes, spacingMm }: LineCourse, s: number): Place {
  const k = Math.min(nodes.length - 2, Math.floor(s / spacingMm));
  const t = s / spacingMm - k;
  const aside = nodes[k].aside + t * (nodes[k + 1].aside - nodes[k].aside);
  return { along: nodes[0].along + s, aside, slope: slopeAt(nodes, Math.round(k + t), spacingMm) };
}

function rowAt(surface: LineSurface, chain: Chain, { along, aside, slope }: Place, across: Float64Array) {
  const length = Math.hypot(1, slope);
  const own = new Float32Array(across.length);
  const design = new Float32Array(across.length);
  across.forEach((t, k) => {
    const [x, y] = placeOnLine(chain, along - (t * slope) / length, aside + t / length);
    own[k] = surface.own(x, y);
    design[k] = surface.design(x, y);
  });
  return { own, design };
}

/** Mean height of both sides and the slope from one to the other per cell of the row; one side alone where the other has no data. */
function sidesOf(row: Float32Array, half: number, share: number): { mean: number; slope: number } {
  const n = Math.max(2, Math.round(share * half));
  const left = median(row.subarray(0, n).filter((value) => !Number.isNaN(value)));
  const right = median(row.subarray(row.length - n).filter((value) => !Number.isNaN(value)));
  if (Number.isNaN(left) || Number.isNaN(right)) return { mean: Number.isNaN(left) ? right : left, slope: 0 };
  return { mean: (left + right) / 2, slope: (right - left) / (2 * half - n + 1) };
}

export function meanWithin(row: ArrayLike<number>, aside: Float64Array, reachMm: number): number {
  let [sum, n] = [0, 0];
  for (let k = 0; k < aside.length; k++) {
    if (Math.abs(aside[k]) > reachMm + 1e-9 || Number.isNaN(row[k])) continue;
    sum += row[k];
    n++;
  }
  return n > 0 ? sum / n : Number.NaN;
}
