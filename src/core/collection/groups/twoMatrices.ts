import { type Agreeing, agreeing, type CommonShifts, commonMm, commonShifts, type ShiftField } from './commonShifts.ts';
import { Union } from './union.ts';

export const twoMatricesDefaults = {
  /**
   * From what agreement of a place in the mean, and from how long a shift in common, mm, two matrices explain the shifts better: of pairs without an
   * object in common, and of pairs with one, which carry what that one suffered.
   */
  apart: { agreement: 0.27, commonMm: 0.014 },
  sharing: { agreement: 0.42, commonMm: 0.045 },
  /** Of pairs without an object in common, where either side has so many objects: what agrees by chance is averaged over more of them. */
  many: { agreement: 0.2, commonMm: 0.014 },
  manyObjects: 3,
  /** The inner and the outer half of the face show at least this share of it, each: a legend cut anew moves one of them. */
  eachHalf: 0.5,
  /** Places that have to be seen by both of two pairs. */
  leastPlaces: 12,
  /** Ways of cutting a set that are looked at, at most: at the weakest ties of its tree. */
  mostCuts: 60,
  /** In a set of so many objects at most single ones are moved across a cut. */
  mostMoved: 24,
};

/** A supported tie between two nodes; infinite where a person or a statement ties them. */
export interface TreeTie {
  readonly a: number;
  readonly b: number;
  readonly score: number;
}

/** A set that is better explained by two matrices. */
export interface Parted {
  readonly sides: readonly [readonly number[], readonly number[]];
  /** Mean agreement of the shifts across, the length of what is common to them, mm, and over how many places. */
  readonly agreement: number;
  readonly commonMm: number;
  readonly places: number;
  /** Whether it rests on pairs without an object in common. */
  readonly independent: boolean;
}

/**
 * The way of cutting a firmly tied set in two at which the shifts of places are most clearly common to the pairs across, or null where none is clear. Single
 * pairs of a careful copy pass for one matrix; that they are all off in the same way shows only together. Looked at are the cuts of the greatest
 * spanning tree: what a copy's own objects tie more firmly hangs on one of its branches.
 */
export function partedByShifts(
  set: readonly number[],
  ties: readonly TreeTie[],
  fields: readonly ShiftField[],
  options = twoMatricesDefaults,
): Parted | null {
  const place = new Set(set);
  const own = fields.filter(({ a, b }) => a !== b && place.has(a) && place.has(b));
  if (own.length < 2) return null;
  const agree = remembering();
  const over = (side: ReadonlySet<number>): Shown | null =>
    shownBy(
      commonShifts(own, (node) => side.has(node), agree),
      Math.min(side.size, set.length - side.size) >= options.manyObjects,
      options,
    );
  const fixed = new Set(ties.filter(({ score }) => score === Number.POSITIVE_INFINITY).flatMap(({ a, b }) => [a, b]));
  const free = set.length <= options.mostMoved ? set.filter((node) => !fixed.has(node)) : [];
  let best: (Shown & { readonly side: ReadonlySet<number> }) | null = null;
  for (const start of sidesOf(set, ties, options.mostCuts))
    for (const side of [start, climbed(start, free, set.length, over)]) {
      const shown = over(side);
      if (shown?.clear && (!best || shown.over > best.over)) best = { ...shown, side };
    }
  if (!best) return null;
  const { side, agreement, commonMm, places, independent } = best;
  const sides = [set.filter((node) => side.has(node)), set.filter((node) => !side.has(node))] as const;
  return { sides, agreement, commonMm, places, independent };
}

/**
 * The side after moves of single objects across the cut, the one that gains most first, as long as pairs without an object in common gain: a copy's
 * objects may each hang on another branch of the tree.
 */
function climbed(
  start: ReadonlySet<number>,
  free: readonly number[],
  nodes: number,
  over: (side: ReadonlySet<number>) => Shown | null,
): ReadonlySet<number> {
  let [side, reached] = [start, over(start)?.over ?? 0];
  for (let moves = 0; moves < nodes; moves++) {
    let next: { side: ReadonlySet<number>; over: number } | null = null;
    for (const node of free) {
      const moved = new Set(side);
      if (!moved.delete(node)) moved.add(node);
      if (moved.size < 2 || nodes - moved.size < 2) continue;
      const shown = over(moved);
      if (shown?.independent && shown.over > Math.max(reached, next?.over ?? 0))
        next = { side: moved, over: shown.over };
    }
    if (!next) break;
    [side, reached] = [next.side, next.over];
  }
  return side;
}

interface Shown extends Omit<Parted, 'sides'> {
  /** Agreement over the least that is asked for; whether that is reached, with all else that is asked. */
  readonly over: number;
  readonly clear: boolean;
}

/** Two matrices as shown by pairs without an object in common; where there are none, by pairs with one, of which more is asked. */
function shownBy({ apart, sharing }: CommonShifts, many: boolean, options: typeof twoMatricesDefaults): Shown | null {
  const independent = placesOf(apart) >= options.leastPlaces;
  const [kind, least] = independent ? [apart, many ? options.many : options.apart] : [sharing, options.sharing];
  const places = placesOf(kind);
  if (places < options.leastPlaces) return null;
  const agreement = (kind.sum[0] + kind.sum[1]) / places;
  const halfShows = (half: 0 | 1): boolean =>
    kind.places[half] < options.leastPlaces / 2 ||
    kind.sum[half] / kind.places[half] >= options.eachHalf * least.agreement;
  const shift = commonMm(kind);
  const clear = agreement >= least.agreement && shift >= least.commonMm && halfShows(0) && halfShows(1);
  return { agreement, commonMm: shift, places, independent, over: agreement / least.agreement, clear };
}

const placesOf = ({ places }: Agreeing): number => places[0] + places[1];

/** One side of each cut at the weakest ties of the greatest spanning tree; none where a person or a statement ties the two. */
function sidesOf(set: readonly number[], ties: readonly TreeTie[], most: number): Set<number>[] {
  const tree = greatestTree(set, ties);
  return tree
    .filter(({ score }) => score < Number.POSITIVE_INFINITY)
    .sort((x, y) => x.score - y.score || x.a - y.a || x.b - y.b)
    .slice(0, most)
    .map((without) => {
      const place = new Map(set.map((node, k) => [node, k]));
      const union = new Union(set.length);
      for (const tie of tree) if (tie !== without) union.join(place.get(tie.a) ?? 0, place.get(tie.b) ?? 0);
      const root = union.find(place.get(without.a) ?? 0);
      return new Set(set.filter((_, k) => union.find(k) === root));
    });
}

function greatestTree(set: readonly number[], ties: readonly TreeTie[]): TreeTie[] {
  const place = new Map(set.map((node, k) => [node, k]));
  const union = new Union(set.length);
  const inside = ties.filter(({ a, b }) => place.has(a) && place.has(b));
  inside.sort((x, y) => (x.score === y.score ? 0 : y.score - x.score) || x.a - y.a || x.b - y.b);
  return inside.filter(({ a, b }) => {
    const [i, j] = [union.find(place.get(a) ?? 0), union.find(place.get(b) ?? 0)];
    union.join(i, j);
    return i !== j;
  });
}

/** `agreeing`, each pair of pairs worked out once: the cuts of one set ask for the same ones. */
function remembering(): (f: ShiftField, g: ShiftField) => Agreeing {
  const known = new Map<ShiftField, Map<ShiftField, Agreeing>>();
  return (f, g) => {
    const own = known.get(f) ?? new Map<ShiftField, Agreeing>();
    known.set(f, own);
    const found = own.get(g) ?? agreeing(f, g);
    own.set(g, found);
    return found;
  };
}
