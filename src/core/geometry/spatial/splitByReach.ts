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
  const reaches = new Float32Array(chosen.length);
  let longest = 0;
  for (let i = 0; i < chosen.length; i++) {
    const at = 3 * chosen[i];
    reaches[i] = reachOf(turned, 3 * t[at], 3 * t[at + 1], 3 * t[at + 2]);
    if (reaches[i] > longest) longest = reaches[i];
  }
  const step = Math.max(1, Math.floor(reaches.length / sampled));
  const some = Float32Array.from({ length: Math.ceil(reaches.length / step) }, (_, k) => reaches[k * step]).sort();
  const ordinary = some[Math.floor(ordinaryShare * (some.length - 1))];
  if (!(longest > worthSplitting * ordinary)) return [chosen];
  return dealt(chosen, reaches, longFrom * ordinary);
}

function dealt(chosen: Uint32Array, reaches: Float32Array, limit: number): Uint32Array[] {
  const short = new Uint32Array(chosen.length);
  const long = new Uint32Array(chosen.length);
  let [shorts, longs] = [0, 0];
  for (let i = 0; i < chosen.length; i++)
    if (reaches[i] > limit) long[longs++] = chosen[i];
    else short[shorts++] = chosen[i];
  return [short.slice(0, shorts), long.slice(0, longs)];
}

function reachOf(p: Float32Array, a: number, b: number, c: number): number {
  const u = (p[a] + p[b] + p[c]) / 3;
  const v = (p[a + 1] + p[b + 1] + p[c + 1]) / 3;
  const alongU = Math.max(Math.abs(p[a] - u), Math.abs(p[b] - u), Math.abs(p[c] - u));
  return Math.max(alongU, Math.abs(p[a + 1] - v), Math.abs(p[b + 1] - v), Math.abs(p[c + 1] - v));
}
