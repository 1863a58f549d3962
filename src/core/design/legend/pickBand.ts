import type { HeightGrid } from '../../geometry/index.ts';
import { withHeights } from '../../geometry/index.ts';
import type { BaseCurve } from './baseCurve.ts';
import { profilesOf } from './ringProfile.ts';

/** Mean and spread of the relief at each depth inward from the curve. */
export interface BandProfile {
  readonly fromMm: number;
  readonly stepMm: number;
  readonly mean: Float64Array;
  /** Standard deviation over positions: high where letters come and go, low on lines and bare ground. */
  readonly spread: Float64Array;
  readonly share: Float64Array;
}

export interface PickedBand {
  /** Depths inward from the curve, mm, of the clear gaps between letters and border lines. */
  readonly outerMm: number;
  readonly innerMm: number;
  /** Depth at which the ground inside the inner border line begins, mm; `innerMm` where no line is seen. */
  readonly insideMm: number;
  /** Depths at which letters begin and end, mm: letter height is their difference. */
  readonly lettersOuterMm: number;
  readonly lettersInnerMm: number;
  /** Border lines seen: how far their mean stands out, in local standard deviations; 0 where there is none. */
  readonly outerLine: number;
  readonly innerLine: number;
  /** How far the spread among the letters stands above that of the gap beside them, on both sides together. */
  readonly edges: number;
  /** What lines, gaps and spread say. */
  readonly score: number;
}

/** Profiles of a relief along curves to `toMm` inward. */
export function bandProfiles(relief: HeightGrid): (curve: BaseCurve, toMm: number) => BandProfile {
  const fromMm = -1;
  const stepMm = Math.max(0.05, Math.min(0.1, relief.pitch / 2));
  const squares = withHeights(
    relief,
    relief.z.map((z) => z * z),
  );
  const profile = profilesOf([relief, squares]);
  return (curve, toMm) => {
    const { mean, share } = profile(0, curve, fromMm, toMm, stepMm);
    const second = profile(1, curve, fromMm, toMm, stepMm);
    const spread = second.mean.map((value, k) => Math.sqrt(Math.max(0, value - mean[k] ** 2)));
    return { fromMm, stepMm, mean, share, spread };
  };
}

/** Letters are this high, mm, from border gap to border gap. */
const leastBandMm = 1;
const mostBandMm = 9;
/** A border line lies within this distance of the gap beside it, mm, for letters of 3 mm; in proportion else. */
const lineWithin = 0.45;

/** Mean of a border line, at least, in local standard deviations. */
export const leastLine = 0.35;

/** Entries within which a border line lies beside a band of `width` entries. */
const reachOf = (width: number, stepMm: number): number =>
  Math.max(4, Math.round(Math.min(1.2, Math.max(0.6, lineWithin * width * stepMm)) / stepMm));

/** Two bands that share more of what they cover together are one. */
const mostShared = 0.5;
/** Most bands of one curve. */
const mostBands = 14;

/** The best bands in order of their score; those that hardly differ from a better one are left out. */
export function pickBands(profile: BandProfile): PickedBand[] {
  const { mean, spread, share, stepMm } = profile;
  const n = mean.length;
  const sums = prefix(spread);
  const squares = prefix(mean.map((value) => Math.max(0, value) ** 2));
  const found: Found[] = [];
  const least = Math.round(leastBandMm / stepMm);
  const most = Math.round(mostBandMm / stepMm);
  for (let o = 1; o < n - least; o++) {
    if (share[o] < 0.1 || !isDip(mean, spread, o)) continue;
    for (let i = o + least; i < Math.min(n - 1, o + most); i++) {
      if (share[i] < 0.1) break;
      if (!isDip(mean, spread, i)) continue;
      const gap = Math.max(1, Math.round(0.12 * (i - o)));
      const count = i - o - 2 * gap;
      const letters = (sums[i - gap] - sums[o + gap]) / count;
      const level = (squares[i - gap] - squares[o + gap]) / count;
      const reach = reachOf(i - o, stepMm);
      const outerLine = greatest(mean, o - reach, o);
      const innerLine = greatest(mean, i, i + reach);
      const edges = Math.max(0, letters - spread[o]) + Math.max(0, letters - spread[i]);
      const score =
        Math.min(1.1, letters) + 0.6 * edges + 0.5 * (Math.min(1, outerLine) + Math.min(1, innerLine)) - 2 * level;
      found.push({ o, i, outerLine, innerLine, edges, score });
    }
  }
  found.sort((p, q) => q.score - p.score);
  const kept: Found[] = [];
  for (const band of found) {
    if (kept.length === mostBands) break;
    if (!kept.some((other) => shared(band, other) > mostShared)) kept.push(band);
  }
  return kept.map((band) => closedIn(profile, band));
}

/** Entries of the profile between which a band lies. */
interface Found extends Pick<PickedBand, 'outerLine' | 'innerLine' | 'edges' | 'score'> {
  readonly o: number;
  readonly i: number;
}

/** What two bands share of what they cover together; below zero where they lie apart. */
const shared = (p: Found, q: Found): number =>
  (Math.min(p.i, q.i) - Math.max(p.o, q.o)) / (Math.max(p.i, q.i) - Math.min(p.o, q.o));

/**
 * Brings both edges to the gaps next to the letters. With u = mean + spread, about the height that a sixth of the
 * places stand above, high on letters and on lines alike: from the middle outward u stays up over the letters and falls
 * to the gap, the first low place after which it rises again by an eighth of its height among the letters. The letters end half-way down, between the
 * greatest spread among the nearest letters and the gap's: blurring moves neither of the two ends against the other.
 */
function closedIn(profile: BandProfile, { o, i, ...rest }: Found): PickedBand {
  const { mean, spread, fromMm, stepMm } = profile;
  const strength = spread.map((value, k) => value + mean[k]);
  const start = (way: 1 | -1): number => ((o + i) >> 1) + way * Math.max(1, (i - o) >> 3);
  const outer = gapFrom(strength, spread, start(-1), o, -1);
  const inner = gapFrom(strength, spread, start(1), i, 1);
  const near = Math.max(2, Math.round(0.3 * (inner - outer)));
  const depth = (k: number): number => fromMm + k * stepMm;
  return {
    ...rest,
    outerMm: depth(outer),
    innerMm: depth(inner),
    insideMm: depth(lineEnd(mean, inner, i + reachOf(i - o, stepMm))),
    lettersOuterMm: depth(endBeside(spread, outer, near, 1)),
    lettersInnerMm: depth(endBeside(spread, inner, near, -1)),
  };
}

/** Entry behind the line that lies between two entries: where the mean is half its greatest again; `from` without a line. */
function lineEnd(mean: Float64Array, from: number, to: number): number {
  const most = greatest(mean, from, to);
  if (most < leastLine) return from;
  let k = from;
  while (mean[k] < most) k++;
  while (k < mean.length - 1 && mean[k] > most / 2) k++;
  return k;
}

/** Spread of a gap over the greatest among the letters, at most: where stems run on to their feet the mean is low, but not the spread. */
const mostSpread = 0.85;

/** The first low place on the way from `k` to `last` after which it rises again; the lowest where none does. */
function gapFrom(strength: Float64Array, spread: Float64Array, k: number, last: number, way: 1 | -1): number {
  let most = strength[k];
  let widest = spread[k];
  let gap = k;
  for (; k !== last + way; k += way) {
    if (strength[k] < strength[gap]) gap = k;
    widest = Math.max(widest, spread[k]);
    const deep = strength[gap] < 0.75 * most && spread[gap] < mostSpread * widest;
    if (deep && strength[k] > strength[gap] + 0.125 * most) break;
    if (deep || strength[k] < most) continue;
    // Still among the letters: what was low before was no gap.
    most = strength[k];
    gap = k;
  }
  return gap;
}

/** Where the spread, going from the gap into the letters, passes half-way from its value in the gap to its greatest nearby. */
function endBeside(spread: Float64Array, gap: number, near: number, way: 1 | -1): number {
  let most = spread[gap];
  for (let k = 0; k <= near; k++) most = Math.max(most, spread[gap + way * k]);
  const half = (spread[gap] + most) / 2;
  let k = gap;
  while (spread[k] < half) k += way;
  if (k === gap) return gap;
  return k - (way * (spread[k] - half)) / (spread[k] - spread[k - way]);
}

/** A place where mean or spread is least among its near neighbours. */
function isDip(mean: Float64Array, spread: Float64Array, k: number): boolean {
  const least = (v: Float64Array): boolean => {
    for (let j = Math.max(0, k - 2); j <= Math.min(v.length - 1, k + 2); j++) if (v[j] < v[k]) return false;
    return true;
  };
  return least(mean) || least(spread);
}

function greatest(v: Float64Array, from: number, to: number): number {
  let most = 0;
  for (let k = Math.max(0, from); k <= Math.min(v.length - 1, to); k++) most = Math.max(most, v[k]);
  return most;
}

function prefix(v: Float64Array): Float64Array {
  const sum = new Float64Array(v.length + 1);
  for (let k = 0; k < v.length; k++) sum[k + 1] = sum[k] + v[k];
  return sum;
}
