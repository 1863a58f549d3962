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
  const found = { t, turned, chosen, reaches: new Float32Array(chosen.length), longest: 0 };
  inStretches(findReaches, found, chosen.length);
  const { reaches, longest } = found;
  const step = Math.max(1, Math.floor(reaches.length / sampled));
  const some = Float32Array.from({ length: Math.ceil(reaches.length / step) }, (_, k) => reaches[k * step]).sort();
  const ordinary = some[Math.floor(ordinaryShare * (some.length - 1))];
  if (!(longest > worthSplitting * ordinary)) return [chosen];
  return dealt(chosen, reaches, longFrom * ordinary);
}

interface Reaches {
  readonly t: Uint32Array;
  readonly turned: Float32Array;
  readonly chosen: Uint32Array;
  /** Found: of each chosen triangle, and the greatest of all. */
  readonly reaches: Float32Array;
  longest: number;
}

function findReaches(job: Reaches, from: number, to: number): void {
  const { t, turned, chosen, reaches } = job;
  let longest = job.longest;
  for (let i = from; i < to; i++) {
    const at = 3 * chosen[i];
    reaches[i] = reachOf(turned, 3 * t[at], 3 * t[at + 1], 3 * t[at + 2]);
    if (reaches[i] > longest) longest = reaches[i];
  }
  job.longest = longest;
}

function dealt(chosen: Uint32Array, reaches: Float32Array, limit: number): Uint32Array[] {
  const lists = {
    chosen,
    reaches,
    limit,
    short: new Uint32Array(chosen.length),
    shorts: 0,
    long: new Uint32Array(chosen.length),
    longs: 0,
  };
  inStretches(deal, lists, chosen.length);
  return [lists.short.slice(0, lists.shorts), lists.long.slice(0, lists.longs)];
}

interface Lists {
  readonly chosen: Uint32Array;
  readonly reaches: Float32Array;
  readonly limit: number;
  readonly short: Uint32Array;
  shorts: number;
  readonly long: Uint32Array;
  longs: number;
}

function deal(lists: Lists, from: number, to: number): void {
  const { chosen, reaches, limit, short, long } = lists;
  let { shorts, longs } = lists;
  for (let i = from; i < to; i++)
    if (reaches[i] > limit) long[longs++] = chosen[i];
    else short[shorts++] = chosen[i];
  lists.shorts = shorts;
  lists.longs = longs;
}

function reachOf(p: Float32Array, a: number, b: number, c: number): number {
  const u = (p[a] + p[b] + p[c]) / 3;
  const v = (p[a + 1] + p[b + 1] + p[c + 1]) / 3;
  const alongU = Math.max(Math.abs(p[a] - u), Math.abs(p[b] - u), Math.abs(p[c] - u));
  return Math.max(alongU, Math.abs(p[a + 1] - v), Math.abs(p[b + 1] - v), Math.abs(p[c + 1] - v));
}
