import { median, quantile } from '../geometry/index.ts';
import { robustLine, robustSigma } from './robustLine.ts';
import type { Groove } from './types.ts';

export const grooveDefaults = {
  /** A groove is this many times as deep as the profile is rough. */
  leastOverRough: 6,
  /** Nothing wider than this at half its depth is a groove, mm. */
  widestMm: 3,
  /** Share of the depth within which the profile counts as back on the shoulder. */
  shoulder: 0.06,
  /** Stretch of the flanks that the straight lines are fitted to, as shares of the depth. */
  flank: [0.2, 0.8] as const,
  /** Length of shoulder taken on either side, as a share of the groove's width. */
  shoulderLength: 0.6,
};

/**
 * Measures the most prominent groove or ridge of a profile (`at`, `z` in mm, z outward, NaN where there is no surface).
 *
 * Found by prominence: how far one must climb from its bottom to leave it on either side, within its greatest width.
 * A straight line is laid through the shoulders beside it, robustly. Depth: the greatest distance below (or above) that
 * line, from the three lowest samples' parabola where the bottom is round. Width: between the crossings of half the
 * depth. Flank angles: robust straight lines through each flank between 20 and 80 % of the depth, against the line of the
 * shoulders, so a tilted section changes nothing. Null where nothing stands out or a shoulder is wanting.
 */
export function measureGroove(at: Float64Array, z: Float64Array, options = grooveDefaults): Groove | null {
  const s: number[] = [];
  const h: number[] = [];
  for (let i = 0; i < at.length; i++)
    if (!Number.isNaN(z[i])) {
      s.push(at[i]);
      h.push(z[i]);
    }
  if (s.length < 12) return null;
  const found = [1, -1]
    .map((sign) => mostProminent(s, smoothed(h, sign), sign, options.widestMm))
    .sort((a, b) => b.prominence - a.prominence)[0];
  if (!(found.prominence > 0)) return null;
  const bounds = boundsOf(smoothed(h, found.sign), found, options.shoulder);
  const shoulders = shoulderLine(s, h, bounds, options.shoulderLength);
  if (!shoulders) return null;
  const level = levelled(s, h, shoulders);
  return measureLevelled(level.s, level.h, bounds, options);
}

function measureLevelled(
  x: readonly number[],
  y: readonly number[],
  [from, to]: readonly [number, number],
  options: typeof grooveDefaults,
): Groove | null {
  const peak = peakOf(y.slice(from, to + 1)) + from;
  const sign = Math.sign(y[peak]);
  const depth = parabolaPeak(x, y, peak, sign);
  if (!(depth > options.leastOverRough * roughness(y)) || depth <= 0) return null;
  const up = y.map((value) => sign * value);
  const half = [crossing(x, up, peak, -1, depth / 2), crossing(x, up, peak, 1, depth / 2)];
  const flanks = [-1, 1].map((side) => flankDeg(x, up, peak, side, depth, options.flank));
  if (![...half, ...flanks].every(Number.isFinite)) return null;
  return {
    depthMm: depth,
    widthMm: half[1] - half[0],
    flankDeg: [flanks[0], flanks[1]],
    sunk: sign < 0,
    atMm: x[peak],
  };
}

/** Median of three, times `sign`: no single spike makes a groove. */
function smoothed(h: readonly number[], sign: number): number[] {
  return h.map((value, i) => sign * (i > 0 && i + 1 < h.length ? median([h[i - 1], value, h[i + 1]]) : value));
}

interface Prominent {
  readonly peak: number;
  readonly sign: number;
  readonly prominence: number;
}

/** The top of `up` with the greatest drop on both sides before it is left behind or `reach` mm away. */
function mostProminent(s: readonly number[], up: readonly number[], sign: number, reach: number): Prominent {
  let best: Prominent = { peak: 0, sign, prominence: 0 };
  for (let i = 1; i + 1 < up.length; i++) {
    if (up[i] < up[i - 1] || up[i] < up[i + 1]) continue;
    const prominence = Math.min(dropFrom(s, up, i, -1, reach), dropFrom(s, up, i, 1, reach));
    if (prominence > best.prominence) best = { peak: i, sign, prominence };
  }
  return best;
}

function dropFrom(s: readonly number[], up: readonly number[], peak: number, side: number, reach: number): number {
  let least = up[peak];
  for (
    let i = peak + side;
    i >= 0 && i < up.length && Math.abs(s[i] - s[peak]) <= reach && up[i] <= up[peak];
    i += side
  )
    least = Math.min(least, up[i]);
  return up[peak] - least;
}

/** Indices on both sides of the peak where the profile is back on the ground. */
function boundsOf(up: readonly number[], { peak, prominence }: Prominent, share: number): [number, number] {
  const limit = up[peak] - (1 - share) * prominence;
  let from = peak;
  let to = peak;
  while (from > 0 && up[from] > limit) from--;
  while (to < up.length - 1 && up[to] > limit) to++;
  return [from, to];
}

/** The profile turned so that the line is level: distances along it and above it. */
function levelled(s: readonly number[], h: readonly number[], line: { slope: number; offset: number }) {
  const cosine = 1 / Math.hypot(1, line.slope);
  const sine = line.slope * cosine;
  const drop = h.map((value) => value - line.offset);
  return {
    s: s.map((value, i) => value * cosine + drop[i] * sine),
    h: drop.map((value, i) => value * cosine - s[i] * sine),
  };
}

/** Index of the value farthest from zero beside the one that is so after a median of three: no spike standing alone. */
function peakOf(h: readonly number[]): number {
  let peak = 0;
  let most = -1;
  for (let i = 1; i + 1 < h.length; i++) {
    const value = Math.abs(median([h[i - 1], h[i], h[i + 1]]));
    if (value > most) {
      most = value;
      peak = i;
    }
  }
  for (const i of [peak - 1, peak + 1]) if (Math.abs(h[i]) > Math.abs(h[peak])) peak = i;
  return peak;
}

/** Robust line through the stretches beside the groove. */
function shoulderLine(s: readonly number[], h: readonly number[], [from, to]: [number, number], share: number) {
  const reach = Math.max(3, Math.round((to - from) * share));
  const beside = [...s.keys()].filter((i) => (i <= from && i > from - reach) || (i >= to && i < to + reach));
  const left = beside.filter((i) => i <= from).length;
  if (left < 3 || beside.length - left < 3) return null;
  return robustLine(
    beside.map((i) => s[i]),
    beside.map((i) => h[i]),
  );
}

/** Height of the parabola through the peak and its neighbours; the sample itself where they do not make a peak. */
function parabolaPeak(x: readonly number[], y: readonly number[], i: number, sign: number): number {
  const top = sign * y[i];
  if (i === 0 || i === y.length - 1) return top;
  const before = sign * y[i - 1] - top;
  const after = sign * y[i + 1] - top;
  const a = x[i - 1] - x[i];
  const b = x[i + 1] - x[i];
  const curve = (before / a - after / b) / (a - b);
  const slope = before / a - curve * a;
  // A sharp bottom is not a parabola: beyond a tenth of the rise the sample is nearer the truth.
  const rise = curve < 0 ? -(slope * slope) / (4 * curve) : 0;
  return rise < 0.1 * Math.max(-before, -after) ? top + rise : top;
}

/** Place where the profile first falls below `level` on one side of the peak, linear between samples; NaN at an end. */
function crossing(x: readonly number[], up: readonly number[], peak: number, side: number, level: number): number {
  for (let i = peak; i + side >= 0 && i + side < up.length; i += side) {
    const next = up[i + side];
    if (next > level) continue;
    return x[i] + ((up[i] - level) / (up[i] - next)) * (x[i + side] - x[i]);
  }
  return Number.NaN;
}

function flankDeg(
  x: readonly number[],
  up: readonly number[],
  peak: number,
  side: number,
  depth: number,
  [low, high]: readonly [number, number],
): number {
  const xs: number[] = [];
  const ys: number[] = [];
  for (let i = peak; i >= 0 && i < up.length && up[i] > low * depth; i += side)
    if (up[i] < high * depth) {
      xs.push(x[i]);
      ys.push(up[i]);
    }
  if (xs.length < 2) return Number.NaN;
  const slope = xs.length < 4 ? (ys[ys.length - 1] - ys[0]) / (xs[xs.length - 1] - xs[0]) : robustLine(xs, ys).slope;
  return (Math.atan(Math.abs(slope)) * 180) / Math.PI;
}

/** Robust σ of the second differences, as noise of single samples; their variance is 6 σ². */
function roughness(y: readonly number[]): number {
  const second = y.slice(2).map((value, i) => value - 2 * y[i + 1] + y[i]);
  return Math.min(robustSigma(second) / Math.sqrt(6), quantile(second.map(Math.abs), 0.9));
}
