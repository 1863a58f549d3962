import type { Random } from '../../src/core/geometry/index.ts';
import type { Cut, CutStyle } from './cuts.ts';
import type { Hand } from './hands.ts';
import { type ClockwisePath, clockwiseFromTop, inset, type PathPoint, type Ring } from './outline.ts';

export type Stop = 'pellet' | 'colon' | 'lozenge' | 'star' | 'none';

export interface LegendStyle {
  readonly hand: Hand;
  readonly text: string;
  /** Distances inward from the die's outline, mm. */
  readonly bandOuterMm: number;
  readonly bandInnerMm: number;
  readonly initialCross: boolean;
  readonly stop: Stop;
  /** Feet toward the rim, read against the clock. */
  readonly facingOutward: boolean;
  readonly depthMm: number;
  readonly strokeMm: number;
  readonly section: CutStyle['section'];
}

export interface PlacedLetter {
  readonly char: string;
  readonly x: number;
  readonly y: number;
  readonly heightMm: number;
  /** Index of the letter's cut in the design. */
  readonly cut: number;
}

export interface Legend {
  readonly cuts: readonly Cut[];
  readonly letters: readonly PlacedLetter[];
}

/** One thing on the band: a letter, the initial cross or a stop. */
interface Item {
  readonly char: string;
  /** Width, mm. */
  readonly width: number;
}

/** Share of the band's width that a letter's height takes. */
const letterShare = 0.74;

/** Lays the legend along the middle of the band, from the top, clockwise in the impression's sense. */
export function layLegend(style: LegendStyle, outline: Ring, random: Random): Legend {
  const path = clockwiseFromTop(inset(outline, (style.bandOuterMm + style.bandInnerMm) / 2));
  const height = (style.bandInnerMm - style.bandOuterMm) * letterShare;
  const items = legendItems(style, height);
  const { condense, starts } = spacing(style, items, path, height);
  const cuts: Cut[] = [];
  const letters: PlacedLetter[] = [];
  items.forEach((item, index) => {
    const middle = starts[index] + (item.width * condense) / 2;
    const at = path.at(style.facingOutward ? -middle : middle);
    const place = letterPlace(at, style.facingOutward, height, condense, random);
    if (item.char !== ' ') drawItem(item.char, style, place, height, cuts, letters, random);
  });
  return { cuts, letters };
}

interface Spacing {
  readonly condense: number;
  readonly starts: readonly number[];
}

/**
 * Letters crowd or spread to fill the band, within what an engraver would do, and keep clear of its corners. The
 * width factor is halved down first, then the gaps are opened.
 */
function spacing(style: LegendStyle, items: readonly Item[], path: ClockwisePath, height: number): Spacing {
  const closed = corners(path, height, style.facingOutward);
  const room = path.length - 0.15 * height;
  const walk = (condense: number, gap: number): number[] => {
    let s = style.initialCross ? -0.5 * items[0].width * condense : 0.5 * gap;
    const starts: number[] = [];
    items.forEach((item, index) => {
      const width = item.width * condense;
      if (!(index === 0 && style.initialCross)) for (const [from, to] of closed) if (s + width > from && s < to) s = to;
      starts.push(s);
      s += width + gap;
    });
    const start = style.initialCross ? -0.5 * items[0].width * condense : 0;
    starts.push(s - start);
    return starts;
  };
  const fits = (condense: number, gap: number): boolean => walk(condense, gap)[items.length] <= room;
  const tight = 0.14 * height;
  const condense = largest(0.55, 1.12, (c) => fits(c, tight));
  const gap = largest(tight, 0.6 * height, (g) => fits(condense, g));
  return { condense, starts: walk(condense, gap) };
}

/** Largest value in [low, high] that passes, by halving; `low` where none does. */
function largest(low: number, high: number, passes: (value: number) => boolean): number {
  if (passes(high)) return high;
  let [good, bad] = [low, high];
  for (let step = 0; step < 14; step++) {
    const middle = (good + bad) / 2;
    if (passes(middle)) good = middle;
    else bad = middle;
  }
  return good;
}

/** Stretches of the path where it turns too sharply for a letter, from start to end, mm. */
function corners(path: ClockwisePath, height: number, backward: boolean): Array<[number, number]> {
  const step = 0.1 * height;
  const reach = 0.35 * height;
  const found: Array<[number, number]> = [];
  for (let s = 0; s < path.length; s += step) {
    const a = path.at(backward ? -(s - reach) : s - reach);
    const b = path.at(backward ? -(s + reach) : s + reach);
    if (a.tangentX * b.tangentX + a.tangentY * b.tangentY > Math.cos(0.6)) continue;
    const last = found[found.length - 1];
    if (last && s - last[1] < reach + 2 * step) last[1] = s + 0.2 * height;
    else found.push([s - 0.2 * height, s + 0.2 * height]);
  }
  return found;
}

function legendItems(style: LegendStyle, height: number): Item[] {
  const items: Item[] = [];
  if (style.initialCross) items.push({ char: '+', width: 0.9 * height });
  const words = style.text.split(' ');
  words.forEach((word, index) => {
    for (const char of word) {
      const form = style.hand.letter(char === "'" ? 'I' : char);
      items.push({ char, width: char === "'" ? 0.22 * height : (form.right - form.left) * height });
    }
    if (index < words.length - 1)
      items.push(style.stop === 'none' ? { char: ' ', width: 0.45 * height } : { char: '.', width: 0.3 * height });
  });
  return items;
}

/** Letter coordinates (u along the reading direction from the letter's middle, v from half height) → design plane. */
type Place = (u: number, v: number) => readonly [number, number];

function letterPlace(at: PathPoint, outward: boolean, height: number, condense: number, random: Random): Place {
  const sign = outward ? -1 : 1;
  // An engraver's own unevenness: a degree or two, a few hundredths of the height.
  const lean = 0.03 * random.normal();
  const c = Math.cos(lean);
  const s = Math.sin(lean);
  const tx = sign * (c * at.tangentX - s * at.tangentY);
  const ty = sign * (s * at.tangentX + c * at.tangentY);
  const size = height * (1 + 0.03 * random.normal());
  const rise = 0.025 * height * random.normal();
  return (u, v) => [
    at.x + u * size * condense * tx - (v * size + rise) * ty,
    at.y + u * size * condense * ty + (v * size + rise) * tx,
  ];
}

function drawItem(
  char: string,
  style: LegendStyle,
  place: Place,
  height: number,
  cuts: Cut[],
  letters: PlacedLetter[],
  random: Random,
): void {
  const cutStyle: CutStyle = {
    section: style.section,
    depthMm: style.depthMm * (1 + 0.08 * random.normal()),
    flankMm: style.strokeMm * (style.section === 'flat' ? 0.32 : 0.5),
    mode: 'deepen',
    chatterMm: 0.008,
  };
  const region = (contours: readonly Float64Array[], boldMm: number): void => {
    cuts.push({ ...cutStyle, kind: 'region', part: 'letter', contours, boldMm });
  };
  if (char === '+') region([transform(crossPattee(), place)], 0);
  else if (char === '.') drawStop(style, cutStyle, place, height, cuts);
  else if (char === "'") region([transform(abbreviation(), place)], 0);
  else {
    const form = style.hand.letter(char);
    const middle = (form.left + form.right) / 2;
    const [x, y] = place(0, 0);
    letters.push({ char, x, y, heightMm: height, cut: cuts.length });
    // The typeface's stems are brought to the stroke width that was asked for (stems are about 0.13 of the height).
    const bold = Math.max(-0.02 * height, Math.min(0.05 * height, (style.strokeMm - 0.13 * height) / 2));
    const contours = form.contours.map((c) => transform(c, (u, v) => place(u - middle, v - 0.5)));
    region(contours, bold);
  }
}

const transform = (points: Float64Array, place: Place): Float64Array => {
  const out = new Float64Array(points.length);
  for (let i = 0; i < points.length; i += 2) {
    const [x, y] = place(points[i], points[i + 1]);
    out[i] = x;
    out[i + 1] = y;
  }
  return out;
};

/** A cross with arms that widen outward, 0.8 across. */
function crossPattee(): Float64Array {
  const points: number[] = [];
  for (let arm = 0; arm < 4; arm++) {
    const c = Math.round(Math.cos((arm * Math.PI) / 2));
    const s = Math.round(Math.sin((arm * Math.PI) / 2));
    for (const [u, v] of [
      [0.07, -0.07],
      [0.4, -0.17],
      [0.37, 0],
      [0.4, 0.17],
    ])
      points.push(c * u - s * v, s * u + c * v);
  }
  return Float64Array.from(points);
}

const abbreviation = (): Float64Array => Float64Array.from([-0.05, 0.2, 0.07, 0.2, 0.12, 0.52, -0.06, 0.5]);

function drawStop(style: LegendStyle, cutStyle: CutStyle, place: Place, height: number, cuts: Cut[]): void {
  const drop = (u: number, v: number, r: number): void => {
    const [x, y] = place(u, v);
    const radius = Math.max(0.12, r * height);
    const points = Float64Array.from([x, y, radius]);
    cuts.push({ ...cutStyle, kind: 'stroke', part: 'letter', section: 'round', depthMm: radius * 1.1, points });
  };
  if (style.stop === 'pellet') drop(0, 0, 0.1);
  if (style.stop === 'colon') {
    drop(0, 0.22, 0.09);
    drop(0, -0.22, 0.09);
  }
  if (style.stop === 'lozenge' || style.stop === 'star') {
    const tips = style.stop === 'star' ? 10 : 4;
    const points: number[] = [];
    for (let i = 0; i < tips; i++) {
      const r = style.stop === 'lozenge' || i % 2 === 0 ? 0.2 : 0.085;
      points.push(r * Math.sin((2 * Math.PI * i) / tips), r * Math.cos((2 * Math.PI * i) / tips));
    }
    const contours = [transform(Float64Array.from(points), place)];
    cuts.push({ ...cutStyle, kind: 'region', part: 'letter', contours, boldMm: 0 });
  }
}
