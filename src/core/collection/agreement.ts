import { bitCount, distance, type Turning, wordsPerFeature } from './code.ts';
import { turnedFeatures } from './features.ts';
import { alignPairs, type Planar, planarFrom } from './planar.ts';
import type { Features } from './types.ts';

export const agreementDefaults = {
  /** Bits of 256 in which two features may differ to be taken for one place; of the first 64 of them. */
  mostBits: 70,
  mostFirstBits: 24,
  /** Sizes of two scans of one matrix differ by no more than this factor; what one feature's size is unsure by. */
  mostScale: 1.13,
  sizeUnsure: 1.12,
  /** Turn of a pair of features against that of the faces, degrees. */
  turnDeg: 20,
  /** Places agree within so many σ of the feature and this share of the distance from the others: first, and after each improvement. */
  placeSigmas: 1,
  placeShares: [0.12, 0.06, 0.025],
  /** Starts that are improved. */
  starts: 4,
};

/** How far two faces agree by the features of their indices. Frames: each face's own, in the impression's sense. */
export interface Agreement {
  /** log₁₀ of how much less often chance would bring so many features into place: see `surprise`. */
  readonly score: number;
  readonly inliers: number;
  /** Pairs of features that looked alike, in place or not. */
  readonly alike: number;
  /** Counter-clockwise turn that brings the query to the candidate, degrees, −180 to 180. */
  readonly turnDeg: number;
  /** The query was turned over first: one of the two faces states the other sense than it shows. */
  readonly turnedOver: boolean;
  /** The query agrees only as seen in a mirror: a mirrored file. */
  readonly mirrored: boolean;
  /** Size of the candidate over that of the query. */
  readonly scale: number;
  /** Share of the query's features in reach of the candidate's that lie in place. */
  readonly share: number;
  /** Places in the query's frame (impression's sense, mm) that agree, and where they lie on the candidate: x, y pairs. */
  readonly onQuery: Float32Array;
  readonly onCandidate: Float32Array;
}

/** Pairs of features that could be one place: same way up, much the same size in mm, codes alike. */
interface Pairs {
  readonly a: number[];
  readonly b: number[];
  /** What each counts: one over how many places of the candidate look like it. */
  readonly weight: number[];
}

/** Both proper ways of laying the faces on one another; `mirrors`: the reflection too, which wins only where it says more than either. */
export function agreementOf(
  query: Features,
  candidate: Features,
  turnings: readonly Turning[],
  options = agreementDefaults,
): Agreement {
  let best: Agreement | null = null;
  for (const turning of turnings) {
    const found = laidOn(query, candidate, turning, options);
    if (!best || found.score > best.score) best = found;
  }
  if (!best) throw new RangeError('No way of laying the faces was named.');
  return best;
}

function laidOn(query: Features, candidate: Features, turning: Turning, options: typeof agreementDefaults): Agreement {
  const a = turnedFeatures(query, turning);
  const pairs = alikePairs(a, candidate, options);
  const firsts = startsOf(a, candidate, pairs, options).slice(0, options.starts);
  let best: { fit: Planar; inside: number[] } = { fit: { scale: 1, turn: 0, tx: 0, ty: 0 }, inside: [] };
  for (const start of firsts) {
    const improved = improve(a, candidate, pairs, start, options);
    if (improved.inside.length > best.inside.length) best = improved;
  }
  return told(query, candidate, turning, pairs, best, options);
}

function alikePairs(a: Features, b: Features, options: typeof agreementDefaults): Pairs {
  const pairs: Pairs = { a: [], b: [], weight: [] };
  const limit = Math.log(options.mostScale * options.sizeUnsure);
  const logB = b.sigma.map(Math.log);
  for (let i = 0; i < a.count; i++) {
    const logA = Math.log(a.sigma[i]);
    const at = i * wordsPerFeature;
    let [best, bits, alike] = [-1, options.mostBits + 1, 0];
    for (let j = 0, k = 0; j < b.count; j++, k += wordsPerFeature) {
      const apart = logA - logB[j];
      if (a.up[i] !== b.up[j] || apart > limit || apart < -limit) continue;
      const first = bitCount(a.code[at] ^ b.code[k]) + bitCount(a.code[at + 1] ^ b.code[k + 1]);
      if (first > options.mostFirstBits) continue;
      const d = distance(a.code, at, b.code, k);
      if (d <= options.mostBits) alike++;
      if (d < bits) [best, bits] = [j, d];
    }
    if (best < 0) continue;
    pairs.weight.push(1 / Math.max(1, alike));
    pairs.a.push(i);
    pairs.b.push(best);
  }
  return pairs;
}

/** Every pair as a start, at equal size, by how many others go with it. */
function startsOf(a: Features, b: Features, pairs: Pairs, options: typeof agreementDefaults): Planar[] {
  const starts = pairs.a.map((i, k) => {
    const j = pairs.b[k];
    const fit = planarFrom(a.x[i], a.y[i], b.x[j], b.y[j], b.angle[j] - a.angle[i]);
    return { fit, k, count: within(a, b, pairs, fit, a.x[i], a.y[i], options.placeShares[0], options).length };
  });
  return starts.sort((one, two) => two.count - one.count || one.k - two.k).map(({ fit }) => fit);
}

/** Pairs that a fit brings together; each feature of the candidate counts once. (cx, cy): where the fit is surest, on the query. */
function within(
  a: Features,
  b: Features,
  pairs: Pairs,
  fit: Planar,
  cx: number,
  cy: number,
  share: number,
  options: typeof agreementDefaults,
): number[] {
  const inside: number[] = [];
  const taken = new Set<number>();
  const c = fit.scale * Math.cos(fit.turn);
  const s = fit.scale * Math.sin(fit.turn);
  const most = (options.turnDeg * Math.PI) / 180;
  for (let k = 0; k < pairs.a.length; k++) {
    const [i, j] = [pairs.a[k], pairs.b[k]];
    const dx = b.x[j] - (c * a.x[i] - s * a.y[i]) - fit.tx;
    const dy = b.y[j] - (s * a.x[i] + c * a.y[i]) - fit.ty;
    const reach = options.placeSigmas * a.sigma[i] + share * Math.hypot(a.x[i] - cx, a.y[i] - cy);
    if (dx * dx + dy * dy > reach * reach || taken.has(j)) continue;
    if (Math.abs(wrapped(b.angle[j] - a.angle[i] - fit.turn)) > most) continue;
    taken.add(j);
    inside.push(k);
  }
  return inside;
}

function improve(a: Features, b: Features, pairs: Pairs, start: Planar, options: typeof agreementDefaults) {
  let fit = start;
  let inside = pairs.a.map((_, k) => k);
  let [cx, cy] = [0, 0];
  for (const share of options.placeShares) {
    inside = within(a, b, pairs, fit, cx, cy, share, options);
    if (inside.length < 3) return { fit, inside };
    const next = alignPairs(
      a,
      b,
      inside.map((k) => pairs.a[k]),
      inside.map((k) => pairs.b[k]),
      options.mostScale,
    );
    fit = next.fit;
    [cx, cy] = next.middle;
  }
  return {
    fit,
    inside: within(a, b, pairs, fit, cx, cy, options.placeShares[options.placeShares.length - 1], options),
  };
}

function told(
  query: Features,
  b: Features,
  turning: Turning,
  pairs: Pairs,
  { fit, inside }: { fit: Planar; inside: number[] },
  options: typeof agreementDefaults,
): Agreement {
  const on = (features: Features, list: readonly number[]): Float32Array =>
    Float32Array.from(inside.flatMap((k) => [features.x[list[k]], features.y[list[k]]]));
  const turnDeg = (wrapped(fit.turn) * 180) / Math.PI;
  return {
    score: surprise(sum(inside.map((k) => pairs.weight[k])), sum(pairs.weight), chanceOfOne(query, b, options)),
    inliers: inside.length,
    alike: pairs.a.length,
    turnDeg,
    turnedOver: turning === 'turnedOver',
    mirrored: turning === 'mirrored',
    scale: fit.scale,
    share: pairs.a.length ? inside.length / pairs.a.length : 0,
    onQuery: on(query, pairs.a),
    onCandidate: on(b, pairs.b),
  };
}

/** How often a pair that is no pair falls into place: the reach's area over the candidate's, and the window of turns. */
function chanceOfOne(
  a: Features,
  b: Features,
  { placeSigmas, placeShares, turnDeg }: typeof agreementDefaults,
): number {
  const spanOf = (values: Float32Array): number =>
    values.reduce((m, v) => Math.max(m, v), -1e9) - values.reduce((m, v) => Math.min(m, v), 1e9);
  const [w, h] = [spanOf(b.x), spanOf(b.y)];
  const usual = a.sigma.slice().sort()[a.count >> 1] ?? 0;
  const reach = placeSigmas * usual + placeShares[placeShares.length - 1] * 0.3 * Math.max(w, h);
  return Math.min(0.5, Math.max(1e-4, ((Math.PI * reach * reach) / Math.max(1e-6, w * h)) * (turnDeg / 180)));
}

/**
 * −log₁₀ of the number of starts n times the chance that k − 1 of the n − 1 others fall into place: n · C(n − 1, k − 1) p^(k − 1). A bound on the
 * binomial's tail, as of a set of features laid by chance (Lowe, CVPR 2001, has the same with priors).
 */
export function surprise(k: number, n: number, p: number): number {
  if (k < 2) return 0;
  const log = Math.log10(n) + (k - 1) * Math.log10(p) + log10Gamma(n) - log10Gamma(k) - log10Gamma(n - k + 1);
  return Math.max(0, -log);
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** log₁₀ Γ(x) by Stirling's series, x ≥ 1; good to 10⁻⁵. */
function log10Gamma(x: number): number {
  const y = x + 6;
  let log = (y - 0.5) * Math.log(y) - y + 0.5 * Math.log(2 * Math.PI) + 1 / (12 * y) - 1 / (360 * y ** 3);
  for (let k = 0; k < 6; k++) log -= Math.log(x + k);
  return log / Math.LN10;
}

function wrapped(angle: number): number {
  const turn = angle % (2 * Math.PI);
  return turn > Math.PI ? turn - 2 * Math.PI : turn < -Math.PI ? turn + 2 * Math.PI : turn;
}
