import type { HeightGrid } from '../../geometry/index.ts';
import { withHeights } from '../../geometry/index.ts';
import type { BaseCurve } from './baseCurve.ts';
import { ringProfile } from './ringProfile.ts';

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
  /** Depths at which letters begin and end, mm: letter height is their difference. */
  readonly lettersOuterMm: number;
  readonly lettersInnerMm: number;
  /** Border lines seen: how far their mean stands out, in local standard deviations; 0 where there is none. */
  readonly outerLine: number;
  readonly innerLine: number;
  readonly score: number;
}

export function bandProfile(relief: HeightGrid, curve: BaseCurve, toMm: number): BandProfile {
  const fromMm = -1;
  const stepMm = Math.max(0.05, Math.min(0.1, relief.pitch / 2));
  const first = ringProfile(relief, curve, fromMm, toMm, stepMm);
  const squares = withHeights(
    relief,
    relief.z.map((value) => value * value),
  );
  const second = ringProfile(squares, curve, fromMm, toMm, stepMm);
  const spread = second.mean.map((value, k) => Math.sqrt(Math.max(0, value - first.mean[k] ** 2)));
  return { fromMm, stepMm, mean: first.mean, share: first.share, spread };
}

/** Letters are this high, mm, from border gap to border gap. */
const leastBandMm = 1.3;
const mostBandMm = 9;
/** A border line lies within this distance of the gap beside it, mm, for letters of 3 mm; in proportion else. */
const lineWithin = 0.45;

/** Bands in order of their score, those that overlap a better one left out. */
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
      const reach = Math.max(4, Math.round(Math.min(1.2, Math.max(0.6, lineWithin * (i - o) * stepMm)) / stepMm));
      const outerLine = greatest(mean, o - reach, o);
      const innerLine = greatest(mean, i, i + reach);
      const edges = Math.max(0, letters - spread[o]) + Math.max(0, letters - spread[i]);
      const score =
        Math.min(1.1, letters) + 0.6 * edges + 0.5 * (Math.min(1, outerLine) + Math.min(1, innerLine)) - 2 * level;
      found.push({ o, i, outerLine, innerLine, score });
    }
  }
  found.sort((p, q) => q.score - p.score);
  const kept: Found[] = [];
  for (const band of found) if (!kept.some((k) => band.o < k.i && k.o < band.i)) kept.push(band);
  return kept.map((band) => closedIn(profile, band));
}

/** Entries of the profile between which a band lies. */
interface Found extends Pick<PickedBand, 'outerLine' | 'innerLine' | 'score'> {
  readonly o: number;
  readonly i: number;
}

/**
 * Brings both edges to the gaps next to the letters: from the middle outward the spread stays up over the letters,
 * falls to ¾ of its level there (the letters' end) and on to its least (the gap).
 */
function closedIn({ spread, fromMm, stepMm }: BandProfile, { o, i, ...rest }: Found): PickedBand {
  const middle = (o + i) >> 1;
  const quarter = Math.max(1, (i - o) >> 2);
  let level = 0;
  for (let k = middle - quarter; k <= middle + quarter; k++) level += spread[k] / (2 * quarter + 1);
  const follow = (way: 1 | -1, last: number): { end: number; gap: number } => {
    // The first half of the way lies within letters, whatever thin places there are.
    let k = middle + way * quarter;
    while (k !== last && spread[k] >= 0.75 * level) k += way;
    let end = k;
    if (spread[k] < 0.75 * level) {
      const above = spread[k - way];
      end = k - (way * (0.75 * level - spread[k])) / Math.max(1e-9, above - spread[k]);
    }
    while (k !== last && spread[k + way] <= spread[k]) k += way;
    return { end, gap: k };
  };
  const outer = follow(-1, o);
  const inner = follow(1, i);
  const depth = (k: number): number => fromMm + k * stepMm;
  return {
    ...rest,
    outerMm: depth(outer.gap),
    innerMm: depth(inner.gap),
    lettersOuterMm: depth(outer.end),
    lettersInnerMm: depth(inner.end),
  };
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
