import { inStretches } from '../stretches.ts';

/** Triangles that reach farther than this many times what `ordinaryShare` of them reach count as long. */
const longFrom = 1.25;
const ordinaryShare = 0.98;
/** Apart only where the longest reaches this many times farther than an ordinary one: below, two searches cost more. */
const worthSplitting = 2.5;
/** As many tell the quantile well enough. */
const sampled = 20_000;

/**
 * The chosen triangles in one list, or in two where a few are much longer than the rest: the ordinary ones and the long
 * ones, each in the order given. How far a triangle reaches is the greatest of |u − ū| and |v − v̄| over its corners,
 * (ū, v̄) its centroid, in the turned coordinates (u, v, w). A matter of speed alone.
 */
export function splitByReach(t: Uint32Array, turned: Float32Array, chosen: Uint32Array): Uint32Array[] {
  const step = Math.max(1, Math.floor(chosen.length / sampled));
  const some = Float32Array.from({ length: Math.ceil(chosen.length / step) }, (_, k) =>
    reachOf(t, turned, chosen[k * step]),
  ).sort();
  const ordinary = some[Math.floor(ordinaryShare * (some.length - 1))];
  const short = new Uint32Array(chosen.length);
  const lists: Lists = { t, turned, chosen, limit: longFrom * ordinary, longest: 0, short, shorts: 0, long: [] };
  inStretches(deal, lists, chosen.length);
  if (!(lists.longest > worthSplitting * ordinary)) return [chosen];
  return [short.subarray(0, lists.shorts), Uint32Array.from(lists.long)];
}

interface Lists {
  readonly t: Uint32Array;
  readonly turned: Float32Array;
  readonly chosen: Uint32Array;
  readonly limit: number;
  /** Found: the greatest reach of all. */
  longest: number;
  /** Found: which reach no farther than the limit, … */
  readonly short: Uint32Array;
  shorts: number;
  /** … and which do. */
  readonly long: number[];
}

function deal(lists: Lists, from: number, to: number): void {
  const { t, turned, chosen, limit, short, long } = lists;
  let { longest, shorts } = lists;
  for (let i = from; i < to; i++) {
    const reach = reachOf(t, turned, chosen[i]);
    if (reach > longest) longest = reach;
    if (reach > limit) long.push(chosen[i]);
    else short[shorts++] = chosen[i];
  }
  lists.longest = longest;
  lists.shorts = shorts;
}

/** Of one triangle, rounded to float32. */
function reachOf(t: Uint32Array, p: Float32Array, triangle: number): number {
  const a = 3 * t[3 * triangle];
  const b = 3 * t[3 * triangle + 1];
  const c = 3 * t[3 * triangle + 2];
  const u = (p[a] + p[b] + p[c]) / 3;
  const v = (p[a + 1] + p[b + 1] + p[c + 1]) / 3;
  const alongU = Math.max(Math.abs(p[a] - u), Math.abs(p[b] - u), Math.abs(p[c] - u));
  return Math.fround(Math.max(alongU, Math.abs(p[a + 1] - v), Math.abs(p[b + 1] - v), Math.abs(p[c + 1] - v)));
}
